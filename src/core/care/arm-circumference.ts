import { isMissing, type Maybe } from "../missing/index.ts";
import { centimetre, type Centimetre } from "../quantity/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { ArmLimits } from "./care-limits.ts";

export interface ArmMeasure {
  readonly circumferenceCm: Maybe<Centimetre>;
  /** Distance above the elbow crease at which the tape lay. */
  readonly atCm: Maybe<Centimetre>;
}

export interface ArmCircumference {
  readonly baseline: ArmMeasure;
  readonly now: ArmMeasure;
  /** Pain, swelling, colour or veins on the chest. */
  readonly symptoms: Maybe<boolean>;
  readonly oedema: Maybe<boolean>;
}

/** Tapes are read to a millimetre; a finer difference is of binary numbers. */
const READ_TO_CM = 0.001;

export interface ArmJudgement {
  readonly riseCm: Centimetre | undefined;
  readonly findings: readonly Finding[];
}

/**
 * What a change of the arm's girth says: compared only at the same place, and only where there are symptoms.
 *   rise = now - baseline
 * Units: cm. Holds: both measured at the same distance above the crease, else it asks. Source: rise of 3 cm with oedema,
 * infusion standards (from memory); no routine serial measuring. Example: 28.0 then 31.0 at 10 cm, swollen: image.
 */
export function judgeArmCircumference(arm: ArmCircumference, limits: ArmLimits): ArmJudgement {
  const { baseline, now, symptoms, oedema } = arm;
  const policy = ["care.arm-rise"];
  const ask = (code: string, path: string): ArmJudgement => ({
    riseCm: undefined,
    findings: [finding(code, "not known", "ask", {}, { path })],
  });
  if (isMissing(symptoms)) return ask("arm-symptoms-not-asked", "symptoms");
  if (!symptoms) return { riseCm: undefined, findings: [finding("arm-no-symptoms", "met", "note")] };
  if (isMissing(baseline.circumferenceCm)) return ask("arm-baseline-missing", "baseline.circumferenceCm");
  if (isMissing(now.circumferenceCm)) return ask("arm-now-missing", "now.circumferenceCm");
  if (isMissing(baseline.atCm) || isMissing(now.atCm)) return ask("arm-place-missing", "now.atCm");
  if (Math.abs(baseline.atCm - now.atCm) > limits.samePlaceCm + READ_TO_CM) {
    const values = { baselineAtCm: baseline.atCm, nowAtCm: now.atCm };
    const places = finding("arm-places-differ", "not known", "ask", values, { policy: ["care.arm-same-place"] });
    return { riseCm: undefined, findings: [places] };
  }
  const riseCm = centimetre(Math.round((now.circumferenceCm - baseline.circumferenceCm) * 100) / 100);
  const values = { riseCm, limitCm: limits.riseCm };
  if (riseCm < limits.riseCm)
    return { riseCm, findings: [finding("arm-rise-below", "not met", "ask", values, { policy })] };
  if (isMissing(oedema)) return { riseCm, findings: [finding("arm-oedema-not-asked", "not known", "ask", values)] };
  return oedema
    ? { riseCm, findings: [finding("arm-rise-with-oedema", "not met", "ask", values, { policy })] }
    : { riseCm, findings: [finding("arm-rise-without-oedema", "at the limit", "note", values, { policy })] };
}
