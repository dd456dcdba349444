import {
  civilDateFromDayNumber,
  civilDateOf,
  dayNumber,
  instantAfter,
  instantMs,
  type CivilDate,
  type Instant,
} from "../calendar/index.ts";
import { isKnown, isMissing, type Maybe } from "../missing/index.ts";
import {
  careClock,
  connectorDueMin,
  dressingDueDay,
  reviewDueDay,
  setDueMin,
  type CareClock,
  type CareItem,
} from "./care-clock.ts";
import type { CareLimits } from "./care-limits.ts";
import type { LineCare, SetKind } from "./line-care.ts";

/** "due now" today or this minute; "not before" while changing it would do harm without need; "not known" asks. */
export type DueState = "due now" | "overdue" | "due on" | "not before" | "not known";

/** Why it is due; src/language says each. */
export type DueReason =
  | "interval"
  | "wet"
  | "loose"
  | "soiled"
  | "lifting"
  | "blood"
  | "debris"
  | "was taken off"
  | "before a culture"
  | "next visit"
  | "never written down";

export interface DueItem {
  readonly lineId: string;
  readonly item: CareItem;
  readonly setKind?: SetKind;
  readonly state: DueState;
  readonly why: DueReason;
  /** A care by the day has `dueOn`, one by the hour `dueAt`; neither where nobody wrote the last one down. */
  readonly dueOn?: CivilDate;
  readonly dueAt?: Instant;
  readonly notBeforeAt?: Instant;
  /** Whole days, or whole minutes for a care by the hour; 0 unless overdue. */
  readonly overdueDays: number;
  readonly overdueMin: number;
  readonly person: Maybe<string>;
  readonly place: Maybe<string>;
  readonly policy: readonly string[];
}

const SET_ROW: Readonly<Record<SetKind, string>> = {
  continuous: "care.set-continuous",
  intermittent: "care.set-intermittent",
  nutrition: "care.set-nutrition",
  "nutrition with lipid": "care.set-nutrition-lipid",
  lipid: "care.set-lipid",
  blood: "care.set-blood",
  propofol: "care.set-propofol",
};

/**
 * Every care of one line with its date, why, and how it stands now. The interval runs from the day it was done, so early
 * care moves the next date; a spoiled dressing and a bloody connector are due from the moment they were seen.
 * Holds: any line; a care that nobody wrote down is "not known", never done. Source: policy rows. Example: a transparent
 * dressing of Tue 5 Aug 2025 is due on Tue 12 Aug; seen wet on 8 Aug, it is due that day.
 */
export function careDue(line: LineCare, now: Instant, limits: CareLimits): readonly DueItem[] {
  const clock = careClock(line, now);
  const { person, place, id: lineId } = line;
  const base = { lineId, person, place, overdueDays: 0, overdueMin: 0 };
  const unknown = (item: CareItem, policy: string): DueItem => ({
    ...base,
    item,
    state: "not known",
    why: "never written down",
    policy: [policy],
  });
  const onDay = (item: CareItem, day: number, why: DueReason, policy: string): DueItem => {
    const late = dayNumber(civilDateOf(now)) - day;
    const state: DueState = late > 0 ? "overdue" : late === 0 ? "due now" : "due on";
    const overdueDays = Math.max(0, late);
    return { ...base, item, state, why, dueOn: civilDateFromDayNumber(day), overdueDays, policy: [policy] };
  };
  const atMinute = (item: CareItem, dueMin: number, leastMin: number, why: DueReason, policy: string[]): DueItem => {
    const nowMin = Math.floor(instantMs(now) / 60_000);
    const at = (minute: number) => instantAfter(now, minute - nowMin);
    const late = nowMin - dueMin;
    const early = nowMin < leastMin && nowMin < dueMin;
    const state: DueState = late > 0 ? "overdue" : late === 0 ? "due now" : early ? "not before" : "due on";
    const notBefore = early ? { notBeforeAt: at(leastMin) } : {};
    return { ...base, item, state, why, dueAt: at(dueMin), ...notBefore, overdueMin: Math.max(0, late), policy };
  };
  const reviewRow = line.setting === "ward" ? "care.review-ward" : "care.review-home";
  const reviewDay = reviewDueDay(clock, limits);
  return [
    isMissing(line.dressing)
      ? unknown("dressing", "care.dressing-transparent")
      : onDay("dressing", dressingDueDay(clock, limits), dressingWhy(line, clock, limits), dressingRow(clock)),
    isMissing(line.connector)
      ? unknown("connector", "care.connector-due")
      : connectorItem(line, clock, limits, atMinute),
    isMissing(line.flushedAt)
      ? unknown("flush", "care.flush-idle")
      : onDay("flush", clock.flushDay + limits.flushIdleDays, "interval", "care.flush-idle"),
    ...clock.sets.map(({ kind, startedMin }) => {
      const least = kind === "continuous" ? startedMin + limits.setContinuousLeastHours * 60 : startedMin;
      const policy = [SET_ROW[kind], ...(kind === "continuous" ? ["care.set-continuous-least"] : [])];
      const due = setDueMin(kind, startedMin, limits);
      return { ...atMinute("administration set", due, least, "interval", policy), setKind: kind };
    }),
    isMissing(line.reviewedAt)
      ? unknown("need review", reviewRow)
      : onDay("need review", reviewDay, reviewDay === clock.nextDay ? "next visit" : "interval", reviewRow),
  ];
}

const dressingRow = (clock: CareClock): string =>
  clock.dressing === "gauze" ? "care.dressing-gauze" : "care.dressing-transparent";

/** A dressing whose own date came before it was seen spoiled was due by its date. */
function dressingWhy({ dressing }: LineCare, clock: CareClock, limits: CareLimits): DueReason {
  const spoiled = clock.dressingSpoiledDay <= dressingDueDay(clock, limits);
  return spoiled && isKnown(dressing) && isKnown(dressing.state) && dressing.state !== "sound"
    ? dressing.state
    : "interval";
}

function connectorItem(
  { connector }: LineCare,
  clock: CareClock,
  limits: CareLimits,
  atMinute: (item: CareItem, dueMin: number, leastMin: number, why: DueReason, policy: string[]) => DueItem,
): DueItem {
  const due = connectorDueMin(clock, limits);
  const least = clock.connectorMin + limits.connectorLeastHours * 60;
  const called = clock.connectorSpoiledMin <= due && isKnown(connector) && isKnown(connector.reason);
  const why = called && connector.reason !== "none" ? connector.reason : "interval";
  return atMinute("connector", due, least, why as DueReason, ["care.connector-due", "care.connector-least"]);
}
