import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CultureLimits } from "./complication-limits.ts";

export const TIP_METHODS = ["roll-plate", "sonication", "broth"] as const;
export type TipMethod = (typeof TIP_METHODS)[number];

/**
 * Whether a catheter tip counts as colonised: more than the method's limit. A broth culture counts nothing and is no method.
 *   colonised when CFU > limit
 * Units: CFU, 5 cm of tip. Holds: count known; colonised is not yet infected. Source: Mermel LA and others 2009, Clin
 * Infect Dis 49:1. Example: roll-plate 15 is not colonised, 16 is.
 */
export function judgeTipCulture(method: TipMethod, cfu: Maybe<number>, limits: CultureLimits): Finding {
  if (method === "broth") return finding("tip-broth-not-used", "not known", "note");
  if (isMissing(cfu)) return finding("tip-count-missing", "not known", "ask", { method });
  const rolled = method === "roll-plate";
  const limit = rolled ? limits.rollPlateCfu : limits.sonicationCfu;
  const policy = [rolled ? "complication.tip-roll-plate" : "complication.tip-sonication"];
  return finding("tip-colonised", cfu > limit ? "met" : "not met", "note", { method, cfu, limit }, { policy });
}
