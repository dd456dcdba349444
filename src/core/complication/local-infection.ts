import { isMissing, type Maybe } from "../missing/index.ts";
import type { Centimetre } from "../quantity/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { InfectionLimits } from "./complication-limits.ts";

export interface SkinSigns {
  /** Redness, hardness or tenderness; how far from the exit it reaches. */
  readonly present: Maybe<boolean>;
  readonly reachesCm: Maybe<Centimetre>;
  readonly alongTunnel: Maybe<boolean>;
}

export type LocalInfection =
  | "none"
  | "exit-site infection"
  | "tunnel infection"
  | "beyond the exit, no tunnel"
  | "not known";

/**
 * What skin signs at the exit are called: within the distance an exit-site infection, beyond it along a tunnel a tunnel
 * infection, beyond it without a tunnel neither by definition.
 * Units: cm. Holds: signs, distance and tunnel known as far as needed, else it asks. Source: Mermel LA and others 2009,
 * Clin Infect Dis 49:1, definitions table. Example: 1.5 cm: exit site; 3 cm without a tunnel: call it cellulitis.
 */
export function judgeSkinSigns(
  { present, reachesCm, alongTunnel }: SkinSigns,
  limits: InfectionLimits,
): { readonly kind: LocalInfection; readonly findings: readonly Finding[] } {
  const ask = (code: string, path: string) => ({
    kind: "not known" as const,
    findings: [finding(code, "not known", "ask", {}, { path })],
  });
  if (isMissing(present)) return ask("skin-signs-not-asked", "present");
  if (!present) return { kind: "none", findings: [finding("skin-signs-none", "met", undefined)] };
  if (isMissing(reachesCm)) return ask("skin-signs-distance-missing", "reachesCm");
  const values = { reachesCm, limitCm: limits.exitSiteCm };
  const policy = ["complication.exit-site"];
  const say = (kind: LocalInfection, code: string) => ({
    kind,
    findings: [finding(code, "not met", "ask", values, { policy })],
  });
  if (reachesCm <= limits.exitSiteCm) return say("exit-site infection", "skin-exit-site-infection");
  if (isMissing(alongTunnel)) return ask("skin-signs-tunnel-not-asked", "alongTunnel");
  return alongTunnel
    ? say("tunnel infection", "skin-tunnel-infection")
    : say("beyond the exit, no tunnel", "skin-beyond-without-tunnel");
}
