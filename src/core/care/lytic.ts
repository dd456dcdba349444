import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";

/** The label's numbers as policy rows; a hospital whose label differs sets its own. */
export interface LyticPolicy {
  readonly fullDoseFromKg: number;
  readonly fullDoseMg: number;
  readonly mgPerMl: number;
  readonly smallShare: number;
  readonly firstLookMin: number;
  readonly secondLookMin: number;
  readonly mostDoses: number;
}

export type LyticDose =
  | { readonly kind: "dose"; readonly mg: number; readonly ml: number; readonly findings: readonly Finding[] }
  | { readonly kind: "ask"; readonly findings: readonly Finding[] };

/**
 * Alteplase for one blocked lumen: from 30 kg 2 mg in 2 mL; below, 110 % of the lumen's volume at 1 mg/mL, never more
 * than 2 mg. The lumen's volume is read from the label as a ceiling, never guessed from the size.
 * Source: alteplase catheter-clearance label (posology). Example: 12 kg, 0.35 mL: 0.385 mg in 0.385 mL.
 */
export function lyticDose(weightKg: Maybe<number>, lumenVolumeMl: Maybe<number>, policy: LyticPolicy): LyticDose {
  const rows = { policy: ["lytic.full-from", "lytic.full-dose", "lytic.concentration", "lytic.small-share"] };
  if (isMissing(weightKg)) return { kind: "ask", findings: [finding("lytic-weight-missing", "not known", "ask")] };
  if (weightKg >= policy.fullDoseFromKg) {
    const mg = policy.fullDoseMg;
    return {
      kind: "dose",
      mg,
      ml: mg / policy.mgPerMl,
      findings: [finding("lytic-full-dose", "met", "note", { mg }, rows)],
    };
  }
  if (isMissing(lumenVolumeMl)) {
    return { kind: "ask", findings: [finding("lytic-volume-missing", "not known", "ask")] };
  }
  const wanted = lumenVolumeMl * policy.smallShare * policy.mgPerMl;
  const mg = Math.min(wanted, policy.fullDoseMg);
  return {
    kind: "dose",
    mg,
    ml: mg / policy.mgPerMl,
    findings: [
      finding(wanted > mg ? "lytic-at-ceiling" : "lytic-by-volume", "met", "note", { mg, lumenVolumeMl }, rows),
    ],
  };
}
