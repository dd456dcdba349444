import {
  millilitrePerMinute173,
  type Centimetre,
  type MilligramPerDecilitre,
  type MillilitrePerMinute173,
} from "../quantity/index.ts";

export const SEXES = ["female", "male"] as const;
/** Sex as the filtration equation uses it: the one the blood chemistry goes by. */
export type Sex = (typeof SEXES)[number];

/**
 * Filtration of an adult from creatinine, age and sex, by the equation of 2021 that has no race term.
 *   eGFR = 142 min(S / k, 1)^a max(S / k, 1)^-1.200 0.9938^age (1.012 if female)
 *   S serum creatinine in mg/dL; k 0.7 and a -0.241 for a woman, k 0.9 and a -0.302 for a man; age in years
 * Holds: 18 years and over, creatinine steady; not in acute injury, on dialysis, in pregnancy or at extremes of muscle.
 * Source: Inker LA and others 2021, N Engl J Med 385:1737, table 1.
 * Example: man of 40 at 1.0 mg/dL, 97.6.
 */
export function filtrationOfAdult(
  creatinine: MilligramPerDecilitre,
  ageYears: number,
  sex: Sex,
): MillilitrePerMinute173 {
  const woman = sex === "female";
  const relative = creatinine / (woman ? 0.7 : 0.9);
  return millilitrePerMinute173(
    142 *
      Math.min(relative, 1) ** (woman ? -0.241 : -0.302) *
      Math.max(relative, 1) ** -1.2 *
      0.9938 ** ageYears *
      (woman ? 1.012 : 1),
  );
}

/**
 * Filtration of a child from creatinine and height, at the bedside.
 *   eGFR = 0.413 height / S      height in cm, S in mg/dL
 * Holds: 1 to 16 years with chronic disease, enzymatic creatinine.
 * Source: Schwartz GJ and others 2009, J Am Soc Nephrol 20:629. Example: 110 cm at 1.2 mg/dL, 37.9.
 */
export const filtrationOfChild = (creatinine: MilligramPerDecilitre, height: Centimetre): MillilitrePerMinute173 =>
  millilitrePerMinute173((0.413 * height) / creatinine);

export const KIDNEY_STAGES = ["G1", "G2", "G3a", "G3b", "G4", "G5"] as const;
export type KidneyStage = (typeof KIDNEY_STAGES)[number];

/** Lower ends of stages 1 to 4, in mL/min/1.73 m2; a value on a border belongs to the better stage. */
const STAGE_FROM = [90, 60, 45, 30, 15];

/**
 * Stage of chronic kidney disease by filtration: 90, 60, 45, 30 and 15, each closed below.
 * Source: KDIGO 2012 chronic kidney disease guideline, table 5, from memory. Example: 44.9 is G3b.
 */
export function kidneyStage(filtration: MillilitrePerMinute173): KidneyStage {
  const index = STAGE_FROM.findIndex((from) => filtration >= from);
  return KIDNEY_STAGES[index === -1 ? STAGE_FROM.length : index] as KidneyStage;
}
