import type { AgeGroup } from "../age/index.ts";
import { dayNumber, type CivilDate } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { millilitrePerMinute173, type Centimetre, type MillilitrePerMinute173 } from "../quantity/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { creatinineInBoth, type Creatinine } from "./creatinine.ts";
import { filtrationTrend, type DatedFiltration } from "./filtration-trend.ts";
import { filtrationOfAdult, filtrationOfChild, kidneyStage, type KidneyStage, type Sex } from "./filtration.ts";

export interface DatedCreatinine extends Creatinine {
  readonly on: CivilDate;
}

export const RENAL_REPLACEMENTS = ["none", "dialysis", "transplant"] as const;
export type RenalReplacement = (typeof RENAL_REPLACEMENTS)[number];

export interface KidneyInput {
  readonly replacement: Maybe<RenalReplacement>;
  /** Oldest or newest first: the order does not matter. */
  readonly creatinines: readonly DatedCreatinine[];
  /** Typed in place of creatinines when the laboratory printed it. */
  readonly filtration: Maybe<MillilitrePerMinute173>;
  readonly acutelyIll: Maybe<boolean>;
  readonly sex: Maybe<Sex>;
  readonly heightCm: Maybe<Centimetre>;
}

export interface KidneyLimits {
  /** Below this, or on any renal replacement, arm veins are kept for dialysis. */
  readonly barBelow: number;
  /** Below this a vein assessment, and a word with the kidney team, comes first. */
  readonly assessBelow: number;
  /** An acutely ill patient's creatinine older than this is measured again. */
  readonly acuteAgeDays: number;
  readonly steadyAgeDays: number;
}

/** What the kidney says about arm veins: "barred" keeps them, "assess" asks first, "open" has no objection, "not known" asks. */
export type KidneyStanding = "barred" | "assess" | "open" | "not known";

export interface KidneyJudgement {
  readonly standing: KidneyStanding;
  readonly filtration: MillilitrePerMinute173 | undefined;
  readonly stage: KidneyStage | undefined;
  /** mL/min/1.73 m2 a year: a rough line, not a forecast. */
  readonly trendPerYear: number | undefined;
  readonly findings: readonly Finding[];
}

export interface KidneyOfPatient {
  readonly group: AgeGroup | undefined;
  readonly ageYears: number | undefined;
  readonly today: CivilDate;
}

/**
 * Whether the kidney lets an arm vein be used for a catheter, with the filtration, its stage and its trend.
 * Dialysis and transplant bar whatever the number; a single value in acute illness asks for the value before it.
 * Holds: adults and children; in a newborn no filtration is computed. Limits are policy: five differ in print.
 */
export function judgeKidney(input: KidneyInput, patient: KidneyOfPatient, limits: KidneyLimits): KidneyJudgement {
  const { values, findings } = filtrations(input, patient, limits);
  const latest = values.at(-1)?.filtration;
  const trendPerYear = values.length > 1 ? filtrationTrend(values) : undefined;
  const replacement = isMissing(input.replacement) ? "none" : input.replacement;
  const replaced = replacement !== "none";
  if (replaced) findings.push(finding("kidney-replacement", "not met", "stop", { replacement }));
  if (latest !== undefined) findings.push(...cutFindings(latest, limits));
  if (trendPerYear !== undefined) findings.push(finding("kidney-trend", "met", "note", { perYear: trendPerYear }));
  if (isMissing(input.replacement))
    findings.push(finding("renal-replacement-not-asked", "not known", "ask", {}, { path: "kidney.replacement" }));
  return {
    standing: standingOf(replaced, isMissing(input.replacement), latest, limits),
    filtration: latest,
    stage: latest === undefined ? undefined : kidneyStage(latest),
    trendPerYear,
    findings,
  };
}

function standingOf(
  replaced: boolean,
  notAsked: boolean,
  latest: number | undefined,
  limits: KidneyLimits,
): KidneyStanding {
  if (replaced || (latest !== undefined && latest < limits.barBelow)) return "barred";
  if (notAsked || latest === undefined) return "not known";
  return latest < limits.assessBelow ? "assess" : "open";
}

function cutFindings(latest: MillilitrePerMinute173, limits: KidneyLimits): Finding[] {
  const values = { filtration: latest, barBelow: limits.barBelow, assessBelow: limits.assessBelow };
  if (latest < limits.barBelow) return [finding("kidney-below-bar", "not met", "stop", values, { policy: BAR_ROW })];
  if (latest < limits.assessBelow)
    return [finding("kidney-assess-veins", "at the limit", "ask", values, { policy: ASSESS_ROW })];
  return [finding("kidney-open", "met", undefined, values, { policy: BAR_ROW })];
}

const BAR_ROW = ["kidney.bar-below"];
const ASSESS_ROW = ["kidney.assess-below"];

/** The dated filtrations, oldest first, with what stands in the way of more. */
function filtrations(
  input: KidneyInput,
  patient: KidneyOfPatient,
  limits: KidneyLimits,
): { readonly values: readonly DatedFiltration[]; readonly findings: Finding[] } {
  if (!isMissing(input.filtration))
    return { values: [{ on: patient.today, filtration: input.filtration }], findings: [] };
  const known = [...input.creatinines].sort((a, b) => dayNumber(a.on) - dayNumber(b.on));
  const last = known.at(-1);
  if (!last)
    return {
      values: [],
      findings: [finding("creatinine-missing", "not known", "ask", {}, { path: "kidney.creatinines" })],
    };
  const findings: Finding[] = [echo(last)];
  const days = dayNumber(patient.today) - dayNumber(last.on);
  const acute = input.acutelyIll === true;
  const most = acute ? limits.acuteAgeDays : limits.steadyAgeDays;
  if (days > most) {
    const row = [acute ? "expiry.creatinine-acute" : "expiry.creatinine-steady"];
    findings.push(
      finding("creatinine-old", "not known", "ask", { days, most }, { policy: row, path: "kidney.creatinines" }),
    );
  }
  if (acute && known.length === 1)
    findings.push(finding("creatinine-baseline-missing", "not known", "ask", {}, { path: "kidney.creatinines" }));
  const of = (creatinine: DatedCreatinine) => filtrationOf(creatinine, input, patient);
  const asked = of(last);
  if (typeof asked === "object") return { values: [], findings: [...findings, asked] };
  return { values: known.map((one) => ({ on: one.on, filtration: of(one) as MillilitrePerMinute173 })), findings };
}

/** The filtration of one creatinine, or the question that stands in its way. */
function filtrationOf(
  creatinine: DatedCreatinine,
  { sex, heightCm }: KidneyInput,
  { group, ageYears }: KidneyOfPatient,
): MillilitrePerMinute173 | Finding {
  const { mgPerDl } = creatinineInBoth(creatinine);
  if (group === undefined || ageYears === undefined)
    return finding("age-missing", "not known", "ask", {}, { path: "patient.age" });
  if (group === "newborn") return finding("kidney-newborn", "not known", "ask", {});
  if (group === "child") {
    if (isMissing(heightCm))
      return finding("height-missing-for-kidney", "not known", "ask", {}, { path: "patient.heightCm" });
    return filtrationOfChild(mgPerDl, heightCm);
  }
  if (isMissing(sex)) return finding("sex-missing-for-kidney", "not known", "ask", {}, { path: "kidney.sex" });
  return millilitrePerMinute173(filtrationOfAdult(mgPerDl, ageYears, sex));
}

function echo(creatinine: DatedCreatinine): Finding {
  const { mgPerDl, umolPerL } = creatinineInBoth(creatinine);
  return finding("creatinine-echo", "met", "note", { mgPerDl, umolPerL, on: creatinine.on });
}
