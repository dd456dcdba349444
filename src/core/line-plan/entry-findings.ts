import { SIDES, type VeinSurvey } from "../arm/index.ts";
import { isMissing } from "../missing/index.ts";
import {
  armLengthQuestion,
  tapeQuestion,
  veinDepthQuestion,
  veinWidthQuestion,
  weightQuestions,
} from "../plausibility/index.ts";
import type { Finding, Level } from "../reason/index.ts";
import { ageInDays, type AgeGroup } from "../age/index.ts";
import type { LineNeed, Patient, PlanInput } from "./plan-input.ts";
import type { PlanPolicy } from "./plan-policy.ts";

const unknown = (code: string, level: Level, path: string): Finding => ({
  code,
  verdict: "not known",
  level,
  values: {},
  policy: [],
  path,
});

/** A child this young may have been born early, and the age from term then decides which rows apply. */
const ASK_TERM_UNDER_DAYS = 365;

/** What must be known about the person before any rule applies. Identity, age and weight can never be planned against. */
export function patientFindings(patient: Patient, group: AgeGroup | undefined): readonly Finding[] {
  const findings: Finding[] = [];
  if (isMissing(patient.name) || patient.name.trim() === "")
    findings.push(unknown("identity-missing", "stop", "patient.name"));
  if (isMissing(patient.identifier) || patient.identifier.trim() === "") {
    findings.push(unknown("identity-missing", "stop", "patient.identifier"));
  }
  if (isMissing(patient.age)) findings.push(unknown("age-missing", "stop", "patient.age"));
  if (isMissing(patient.weightKg)) findings.push(unknown("weight-missing", "stop", "patient.weightKg"));
  if (!isMissing(patient.age) && ageInDays(patient.age) < ASK_TERM_UNDER_DAYS) {
    if (isMissing(patient.bornPreterm)) findings.push(unknown("born-preterm-missing", "ask", "patient.bornPreterm"));
    else if (patient.bornPreterm && isMissing(patient.correctedAgeDays)) {
      findings.push(unknown("corrected-age-missing", "ask", "patient.correctedAgeDays"));
    }
  }
  if (group === "child" || group === "newborn") {
    findings.push({
      code: "adult-ratio-borrowed",
      verdict: "not known",
      level: "note",
      values: { group },
      policy: [`ratio.limit-${group}`],
    });
  }
  return findings;
}

/** What the line must carry. The lumens decide the size, so they are asked first; the rest is asked but does not block. */
export function needFindings(need: LineNeed, policy: PlanPolicy): readonly Finding[] {
  const findings: Finding[] = [];
  if (isMissing(need.lumens)) findings.push(unknown("need-lumens-missing", "ask", "need.lumens"));
  else if (need.lumens > policy.greatestLumens) {
    findings.push({
      code: "need-lumens-many",
      verdict: "at the limit",
      level: "ask",
      values: { lumens: need.lumens, limit: policy.greatestLumens },
      policy: ["need.greatest-lumens"],
      path: "need.lumens",
    });
  }
  if (isMissing(need.flowMlPerHour)) findings.push(unknown("need-flow-missing", "ask", "need.flowMlPerHour"));
  if (isMissing(need.blood)) findings.push(unknown("need-blood-missing", "ask", "need.blood"));
  if (isMissing(need.contrastMlPerSecond))
    findings.push(unknown("need-contrast-missing", "ask", "need.contrastMlPerSecond"));
  if (!isMissing(need.lumens)) {
    findings.push({
      code: "need-stated-by-you",
      verdict: "met",
      level: "note",
      values: {
        lumens: need.lumens,
        ...(isMissing(need.flowMlPerHour) ? {} : { flowMlPerHour: need.flowMlPerHour }),
        ...(isMissing(need.blood) ? {} : { blood: need.blood }),
        ...(isMissing(need.contrastMlPerSecond) ? {} : { contrastMlPerSecond: need.contrastMlPerSecond }),
      },
      policy: [],
    });
  }
  return findings;
}

/** Numbers that could be in another unit are asked about with both readings; nothing is converted. */
export function plausibilityFindings(
  input: PlanInput,
  group: AgeGroup | undefined,
  policy: PlanPolicy,
): readonly Finding[] {
  const { age, weightKg } = input.patient;
  const limits = policy.plausible;
  const heightCm = isMissing(input.patient.heightCm) ? undefined : input.patient.heightCm;
  const adult = group === "adult";
  const findings: Finding[] = [];
  if (!isMissing(age) && !isMissing(weightKg))
    findings.push(...weightQuestions({ adult, ageDays: ageInDays(age), weightKg, heightCm }, limits));
  for (const side of SIDES) {
    const { armLengthCm, surveys } = input.arms[side];
    if (!isMissing(armLengthCm))
      findings.push(...armLengthQuestion(armLengthCm, `arms.${side}.armLengthCm`, { adult, heightCm }, limits));
    findings.push(...veinQuestions(surveys, `arms.${side}.surveys`, adult, policy));
    if (!adult) continue;
    for (const field of ["surfaceTapeCm", "secondTapeCm"] as const) {
      const tape = input.length.sides[side][field];
      if (!isMissing(tape)) findings.push(...tapeQuestion(tape, `length.sides.${side}.${field}`, limits));
    }
  }
  return findings;
}

/** The first reading of an arm that looks like another unit; a whole column in centimetres is one question, not ten. */
function veinQuestions(
  surveys: readonly VeinSurvey[],
  path: string,
  adult: boolean,
  policy: PlanPolicy,
): readonly Finding[] {
  const widths: Finding[] = [];
  const depths: Finding[] = [];
  for (const [survey, { stations }] of surveys.entries()) {
    for (const [row, { diameterMm, depthMm, veinPresent }] of stations.entries()) {
      if (!veinPresent) continue;
      const at = `${path}.${survey}.stations.${row}`;
      if (!isMissing(diameterMm)) widths.push(...veinWidthQuestion(diameterMm, `${at}.diameterMm`, policy.plausible));
      if (adult && !isMissing(depthMm)) depths.push(...veinDepthQuestion(depthMm, `${at}.depthMm`, policy.plausible));
    }
  }
  return [...widths.slice(0, 1), ...depths.slice(0, 1)];
}
