import { isMissing, type Maybe } from "../missing/index.ts";

export const FLUSHINGS = ["freely", "slowly", "not at all"] as const;
export type Flushing = (typeof FLUSHINGS)[number];
export const BLOOD_RETURNS = ["freely", "slowly", "none"] as const;
export type BloodReturn = (typeof BLOOD_RETURNS)[number];

export type OcclusionKind = "open" | "withdrawal occlusion" | "partial occlusion" | "complete occlusion";

/**
 * What kind of blockage two signs make: flushes without blood is a withdrawal occlusion, sluggish is partial, nothing is
 * complete. A line that flushes and gives no blood is not open.
 * Holds: both signs known, else undefined. Source: classes of an occlusion policy in print (corporate occlusion policy,
 * from memory). Example: flushes freely, no blood: withdrawal occlusion.
 */
export function occlusionKind(flushes: Maybe<Flushing>, blood: Maybe<BloodReturn>): OcclusionKind | undefined {
  if (isMissing(flushes) || isMissing(blood)) return undefined;
  if (flushes === "not at all") return "complete occlusion";
  if (flushes === "slowly") return "partial occlusion";
  if (blood === "none") return "withdrawal occlusion";
  return blood === "slowly" ? "partial occlusion" : "open";
}
