import { outsideDiameter, type StockCatheter } from "../catheter/index.ts";
import { isMissing } from "../missing/index.ts";
import { millimetre, type Kilogram } from "../quantity/index.ts";
import type { Finding, Verdict } from "../reason/index.ts";
import { found, usualLevel } from "./found.ts";
import { judgeNeed } from "./need.ts";
import type { LineNeed } from "./plan-input.ts";
import type { PlanPolicy } from "./plan-policy.ts";

export interface PatientOfCatheter {
  readonly need: LineNeed;
  readonly weightKg: Kilogram;
}

/** What the catheter is asked by the patient alone, wherever it would be placed: weight, need, label. */
export function catheterFindings(catheter: StockCatheter, patient: PatientOfCatheter, policy: PlanPolicy): Finding[] {
  const largest = largestFrenchFor(patient.weightKg, policy);
  const verdict: Verdict = catheter.nominalFrench > largest ? "at the limit" : "met";
  const findings = [
    found("size-within-weight-band", verdict, usualLevel(verdict), ["weight.band-1-up-to", "weight.band-2-up-to"], {
      french: catheter.nominalFrench,
      largestFrench: largest,
      weightKg: patient.weightKg,
    }),
  ];
  const need = judgeNeed(catheter, patient.need);
  if (need.open.length > 0) {
    findings.push(found("label-does-not-answer", "not known", "ask", [], { catheter: catheter.name, need: need.open }));
  }
  if (isMissing(catheter.outsideDiameterMm)) {
    findings.push(
      found("outside-diameter-from-french", "not known", "note", [], {
        catheter: catheter.name,
        french: catheter.nominalFrench,
        outsideDiameterMm: millimetre(outsideDiameter(catheter)),
      }),
    );
  }
  return findings;
}

/** The largest French the weight makes one expect: a stock guess and an upper bound to question, never a choice. */
export function largestFrenchFor(weightKg: Kilogram, policy: Pick<PlanPolicy, "weightBands">): number {
  return (
    (policy.weightBands.find((band) => weightKg <= band.upToKg) ?? policy.weightBands.at(-1))?.largestFrench ?? Infinity
  );
}
