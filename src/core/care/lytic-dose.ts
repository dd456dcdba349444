import { isMissing, type Maybe } from "../missing/index.ts";
import { milligram, millilitre, type Kilogram, type Milligram, type Millilitre } from "../quantity/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { PatencyLimits } from "./care-limits.ts";

export interface LyticFacts {
  readonly weightKg: Maybe<Kilogram>;
  /** From the label, as a ceiling: a trimmed catheter holds less. Never from the French size. */
  readonly labelLumenMl: Maybe<Millilitre>;
}

export type LyticDose =
  | {
      readonly kind: "dose";
      readonly volumeMl: Millilitre;
      readonly doseMg: Milligram;
      /** The largest dose of the label was reached. */
      readonly capped: boolean;
      readonly policy: readonly string[];
    }
  | { readonly kind: "asked"; readonly findings: readonly Finding[] };

const ROWS = ["care.lytic-full-from-weight", "care.lytic-most", "care.lytic-concentration"];

/**
 * One dose of alteplase for one blocked lumen.
 *   from the full weight up: most mg;  below it: share x lumen volume x concentration, never over most;  mL = mg / (mg/mL)
 * Units: kg, mL, mg, mg/mL. Holds: weight known, and below the full weight the labelled lumen volume; else it asks.
 * Source: alteplase catheter-clearance label. Example: 12 kg, 0.35 mL: 0.385 mL of 1 mg/mL.
 */
export function lyticDose({ weightKg, labelLumenMl }: LyticFacts, limits: PatencyLimits): LyticDose {
  if (isMissing(weightKg))
    return { kind: "asked", findings: [finding("lytic-weight-missing", "not known", "ask", {}, { path: "weightKg" })] };
  const most = limits.lyticMostMg;
  if (weightKg >= limits.lyticFullFromKg) return dose(most, false, limits, ROWS);
  if (isMissing(labelLumenMl))
    return {
      kind: "asked",
      findings: [finding("lytic-lumen-volume-missing", "not known", "ask", {}, { path: "labelLumenMl" })],
    };
  const wanted = limits.lyticLumenShare * labelLumenMl * limits.lyticMgPerMl;
  return dose(Math.min(wanted, most), wanted > most, limits, [...ROWS, "care.lytic-lumen-share"]);
}

const dose = (doseMg: number, capped: boolean, limits: PatencyLimits, policy: readonly string[]): LyticDose => ({
  kind: "dose",
  volumeMl: millilitre(doseMg / limits.lyticMgPerMl),
  doseMg: milligram(doseMg),
  capped,
  policy,
});
