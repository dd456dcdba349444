import { minutesBetween, type Instant } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import type { Millilitre } from "../quantity/index.ts";

/** One blood culture bottle. The clock of growth starts when it is loaded, not when it is drawn. */
export interface CultureBottle {
  readonly id: string;
  /** "peripheral", or the lumen it was drawn through. */
  readonly site: { readonly kind: "peripheral" } | { readonly kind: "lumen"; readonly lumen: string };
  readonly medium: Maybe<"aerobic" | "anaerobic">;
  readonly drawnAt: Maybe<Instant>;
  readonly loadedAt: Maybe<Instant>;
  /** "none" when the incubation ended without growth; missing while nobody has said. */
  readonly flaggedAt: Maybe<Instant> | "none";
  readonly organism: Maybe<string>;
  readonly volumeMl: Maybe<Millilitre>;
}

/**
 * Minutes from loading to the machine's flag.
 *   time to positivity = flagged - loaded
 * Units: minutes. Holds: both times known and in order, else undefined. Source: definition. Example: loaded 10:20,
 * flagged 19:05: 525.
 */
export function timeToPositivityMin({ loadedAt, flaggedAt }: CultureBottle): number | undefined {
  if (isMissing(loadedAt) || flaggedAt === "none" || isMissing(flaggedAt)) return undefined;
  const minutes = minutesBetween(loadedAt, flaggedAt);
  return minutes >= 0 ? minutes : undefined;
}

/** Names are compared without case and spaces at the ends; nothing cleverer, so nothing matches by accident. */
export const organismKey = (name: string): string => name.trim().toLowerCase().replace(/\s+/g, " ");
