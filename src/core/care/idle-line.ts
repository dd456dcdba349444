import { dayNumber, minutesBetween, civilDateOf, type CivilDate, type Instant } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { IdleLimits } from "./care-limits.ts";
import type { Setting } from "./line-care.ts";

export interface LineNeed {
  readonly setting: Setting;
  readonly placedOn: Maybe<CivilDate>;
  readonly lastUsedAt: Maybe<Instant>;
  readonly plannedEndOn: Maybe<CivilDate>;
  readonly changedToTablets: Maybe<boolean>;
  /** Blood sampling is the only reason left. */
  readonly onlyBloodSampling: Maybe<boolean>;
  readonly secondDeviceDoesTheJob: Maybe<boolean>;
  readonly somebodyFlushes: Maybe<boolean>;
  readonly lastLongDwellReviewOn: Maybe<CivilDate>;
}

const HOURS_PER_DAY = 24;

/**
 * Why a line may no longer be needed, worst first, each with its reason; and, with any of them, the question whether the
 * next drug, cycle or days are covered before it comes out. A long dwell asks for a review; age alone removes nothing.
 * Holds: a fact that nobody asked gives no reason and is asked. Source: policy rows, common practice. Example: no use for
 * 48 h on a ward: idle.
 */
export function judgeNeed(line: LineNeed, now: Instant, limits: IdleLimits): readonly Finding[] {
  const today = civilDateOf(now);
  const reasons = [
    ...plannedEnd(line.plannedEndOn, today),
    ...noUse(line, now, limits),
    ...yes(line.changedToTablets, "need-changed-to-tablets", "changedToTablets"),
    ...yes(line.onlyBloodSampling, "need-only-blood-sampling", "onlyBloodSampling"),
    ...yes(line.secondDeviceDoesTheJob, "need-second-device", "secondDeviceDoesTheJob"),
    ...(line.somebodyFlushes === false ? [finding("need-nobody-flushes", "not met", "ask")] : []),
    ...(isMissing(line.somebodyFlushes) ? [asked("somebodyFlushes")] : []),
  ];
  const idle = reasons.some(({ verdict }) => verdict === "not met");
  const covered = { policy: ["care.cover-hours"] };
  return [
    ...reasons,
    ...(idle
      ? [finding("need-covered-before-removal", "not known", "ask", { hours: limits.coverHours }, covered)]
      : []),
    ...longDwell(line, today, limits),
  ];
}

function plannedEnd(end: Maybe<CivilDate>, today: CivilDate): Finding[] {
  if (isMissing(end)) return [finding("need-planned-end-missing", "not known", "ask", {}, { path: "plannedEndOn" })];
  const days = dayNumber(today) - dayNumber(end);
  return days > 0 ? [finding("need-planned-end-passed", "not met", "ask", { end, days })] : [];
}

function noUse({ lastUsedAt, setting }: LineNeed, now: Instant, limits: IdleLimits): Finding[] {
  if (isMissing(lastUsedAt)) return [finding("need-last-use-missing", "not known", "ask", {}, { path: "lastUsedAt" })];
  const hours = Math.floor(minutesBetween(lastUsedAt, now) / 60);
  const ward = setting === "ward";
  const limit = ward ? limits.idleWardHours : limits.idleHomeDays * HOURS_PER_DAY;
  const policy = [ward ? "care.idle-ward" : "care.idle-home"];
  return hours >= limit ? [finding("need-no-use", "not met", "ask", { hours, limit }, { policy })] : [];
}

const asked = (path: string): Finding => finding("need-not-asked", "not known", "ask", { about: path }, { path });

function yes(fact: Maybe<boolean>, code: string, path: string): Finding[] {
  if (isMissing(fact)) return [asked(path)];
  return fact ? [finding(code, "not met", "ask")] : [];
}

function longDwell({ placedOn, lastLongDwellReviewOn }: LineNeed, today: CivilDate, limits: IdleLimits): Finding[] {
  const policy = ["care.long-dwell"];
  if (isMissing(placedOn)) return [finding("need-placed-on-missing", "not known", "ask", {}, { path: "placedOn" })];
  const days = dayNumber(today) - dayNumber(placedOn);
  const since = isMissing(lastLongDwellReviewOn) ? days : dayNumber(today) - dayNumber(lastLongDwellReviewOn);
  return since >= limits.longDwellDays
    ? [finding("long-dwell-review", "not known", "ask", { days, since, limit: limits.longDwellDays }, { policy })]
    : [];
}

/** Reasons in the order of how little is left of the need; a list of lines follows the first of each. */
const WORST_FIRST = [
  "need-planned-end-passed",
  "need-no-use",
  "need-changed-to-tablets",
  "need-only-blood-sampling",
  "need-second-device",
  "need-nobody-flushes",
];

export interface NeedOfLine {
  readonly lineId: string;
  readonly findings: readonly Finding[];
}

/**
 * The lines that may no longer be needed, worst first: by the first reason of each, then by how many reasons it has.
 * Holds: any number of lines; one without a reason is left out. Source: common practice, no source. Example: a planned end
 * passed comes before a second device.
 */
export function idleLines(
  lines: readonly (LineNeed & { readonly lineId: string })[],
  now: Instant,
  limits: IdleLimits,
): readonly NeedOfLine[] {
  return lines
    .map((line) => {
      const findings = judgeNeed(line, now, limits);
      const reasons = findings.filter(({ verdict }) => verdict === "not met");
      return { lineId: line.lineId, findings, reasons, worst: WORST_FIRST.indexOf(reasons[0]?.code ?? "") };
    })
    .filter(({ reasons }) => reasons.length > 0)
    .sort((a, b) => a.worst - b.worst || b.reasons.length - a.reasons.length)
    .map(({ lineId, findings }) => ({ lineId, findings }));
}

/** Days without a line that removing some today saves, and the infections that many idle days would hold. */
export interface DaysSaved {
  readonly lines: number;
  readonly days: number;
  readonly infections: number;
}

/**
 * What taking out idle lines today saves: a small number for one list, a real one over a year.
 *   infections = days x rate / 1000
 * Units: idle days expected of each line; rate per 1,000 line-days. Holds: days not negative.
 * Source: arithmetic. Example: five lines of 12 days at 1.16: 60 days, 0.07 infections.
 */
export function daysSaved(idleDaysAhead: readonly number[], limits: IdleLimits): DaysSaved {
  const days = idleDaysAhead.reduce((sum, one) => sum + Math.max(0, one), 0);
  return { lines: idleDaysAhead.length, days, infections: (days * limits.infectionsPer1000Days) / 1000 };
}
