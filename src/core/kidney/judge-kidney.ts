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
  /** Day of the typed filtration; today's where nobody wrote one. */
  readonly filtrationOn: Maybe<CivilDate>;
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
  /** No kidney filters more: a larger value is another unit. */
  readonly plausibleMost: number;
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
  const replacement = isMissing(input.replacement) ? "none" : input.replacement;
  const replaced = replacement !== "none";
  const { values, findings, doubtful } = replaced
    ? { values: [], findings: [], doubtful: false }
    : filtrations(input, patient, limits);
  const latest = values.at(-1)?.filtration;
  const implausible = latest !== undefined && latest > limits.plausibleMost;
  const open = doubtful || implausible;
  if (implausible) {
    const policy = ["kidney.plausible-most"];
    findings.push(finding("creatinine-implausible", "not known", "ask", { filtration: latest }, { policy }));
  }
  const trendPerYear = values.length > 1 ? filtrationTrend(values) : undefined;
  if (replaced) findings.push(finding("kidney-replacement", "not met", "stop", { replacement }));
  if (replacement === "dialysis") findings.push(finding("give-at-dialysis", "not known", "ask"));
  // a value in doubt may still bar; it never says that nothing stands in the way
  if (latest !== undefined && !(open && latest >= limits.barBelow)) findings.push(...cutFindings(latest, limits));
  if (trendPerYear !== undefined) findings.push(finding("kidney-trend", "met", "note", { perYear: trendPerYear }));
  if (isMissing(input.replacement))
    findings.push(finding("renal-replacement-not-asked", "not known", "ask", {}, { path: "kidney.replacement" }));
  return {
    standing:
      patient.group === "newborn"
        ? newbornStanding(replaced, isMissing(input.replacement))
        : standingOf(replaced, isMissing(input.replacement) || open, latest, limits),
    filtration: latest,
    stage: latest === undefined ? undefined : kidneyStage(latest),
    trendPerYear,
    findings,
  };
}

/** In a newborn no filtration decides; dialysis does. */
function newbornStanding(replaced: boolean, notAsked: boolean): KidneyStanding {
  if (replaced) return "barred";
  return notAsked ? "not known" : "open";
}

function standingOf(
  replaced: boolean,
  open: boolean,
  latest: number | undefined,
  limits: KidneyLimits,
): KidneyStanding {
  if (replaced || (latest !== undefined && latest < limits.barBelow)) return "barred";
  if (open || latest === undefined) return "not known";
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

interface Filtrations {
  readonly values: readonly DatedFiltration[];
  readonly findings: Finding[];
  /** The newest value is old, of a day to come, or has no value before it in acute illness. */
  readonly doubtful: boolean;
}

/** The dated filtrations, oldest first, with what stands in the way of more. */
function filtrations(input: KidneyInput, patient: KidneyOfPatient, limits: KidneyLimits): Filtrations {
  if (patient.group === "newborn")
    return { values: [], findings: [finding("kidney-newborn", "not known", "note")], doubtful: false };
  if (!isMissing(input.filtration)) {
    const on = isMissing(input.filtrationOn) ? patient.today : input.filtrationOn;
    const findings = ageFindings(on, input, patient, limits);
    return { values: [{ on, filtration: input.filtration }], findings, doubtful: findings.length > 0 };
  }
  const known = [...input.creatinines].sort((a, b) => dayNumber(a.on) - dayNumber(b.on));
  const last = known.at(-1);
  if (!last)
    return {
      values: [],
      findings: [finding("creatinine-missing", "not known", "ask", {}, { path: "kidney.creatinines" })],
      doubtful: true,
    };
  const questions = ageFindings(last.on, input, patient, limits);
  if (input.acutelyIll === true && known.length === 1)
    questions.push(finding("creatinine-baseline-missing", "not known", "ask", {}, { path: "kidney.creatinines" }));
  const findings: Finding[] = [echo(last), ...questions];
  const of = (creatinine: DatedCreatinine) => filtrationOf(creatinine, input, patient);
  const asked = of(last);
  if (typeof asked === "object") return { values: [], findings: [...findings, asked], doubtful: true };
  return {
    values: known.map((one) => ({ on: one.on, filtration: of(one) as MillilitrePerMinute173 })),
    findings,
    doubtful: questions.length > 0,
  };
}

/** What the day of the newest value asks: measured again when old, and a day to come is a slip. */
function ageFindings(
  on: CivilDate,
  { acutelyIll }: KidneyInput,
  { today }: KidneyOfPatient,
  limits: KidneyLimits,
): Finding[] {
  const path = "kidney.creatinines";
  const days = dayNumber(today) - dayNumber(on);
  if (days < 0) return [finding("creatinine-future", "not known", "ask", { on }, { path })];
  const acute = acutelyIll === true;
  const most = acute ? limits.acuteAgeDays : limits.steadyAgeDays;
  if (days <= most) return [];
  const policy = [acute ? "expiry.creatinine-acute" : "expiry.creatinine-steady"];
  return [finding("creatinine-old", "not known", "ask", { days, most }, { policy, path })];
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
