import {
  civilDateFromDayNumber,
  civilDateOf,
  dayNumber,
  instantAtMinute,
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
  /** Nobody has said whether it is sound and clean: the date stands only if it is. */
  readonly stateNotAsked?: true;
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
  const nowMin = Math.floor(instantMs(now) / 60_000);
  const asked: Asked = { line, clock, limits, today: dayNumber(civilDateOf(now)), nowMin };
  return [
    dressingItem(asked),
    connectorItem(asked),
    isMissing(line.flushedAt)
      ? neverWritten(asked, "flush", "care.flush-idle")
      : onDay(asked, "flush", clock.flushDay + limits.flushIdleDays, "interval", "care.flush-idle"),
    ...clock.sets.map((set) => setItem(asked, set)),
    reviewItem(asked),
  ];
}

/** One line, the moment it is asked and the limits it is held to; made once for all its cares. */
interface Asked {
  readonly line: LineCare;
  readonly clock: CareClock;
  readonly limits: CareLimits;
  readonly today: number;
  readonly nowMin: number;
}

function neverWritten({ line }: Asked, item: CareItem, row: string): DueItem {
  const { id: lineId, person, place } = line;
  const why = "never written down";
  return { lineId, item, state: "not known", why, overdueDays: 0, overdueMin: 0, person, place, policy: [row] };
}

function onDay({ line, today }: Asked, item: CareItem, day: number, why: DueReason, row: string): DueItem {
  const { id: lineId, person, place } = line;
  const late = today - day;
  return {
    lineId,
    item,
    state: late > 0 ? "overdue" : late === 0 ? "due now" : "due on",
    why,
    dueOn: civilDateFromDayNumber(day),
    overdueDays: Math.max(0, late),
    overdueMin: 0,
    person,
    place,
    policy: [row],
  };
}

function atMinute(
  { line, clock, nowMin }: Asked,
  item: CareItem,
  dueMin: number,
  leastMin: number,
  why: DueReason,
  policy: readonly string[],
): DueItem {
  const { id: lineId, person, place } = line;
  const late = nowMin - dueMin;
  const early = nowMin < leastMin && late < 0;
  const due = {
    lineId,
    item,
    state: late > 0 ? "overdue" : late === 0 ? "due now" : early ? "not before" : "due on",
    why,
    dueAt: instantAtMinute(dueMin, clock.offsetMin),
    overdueDays: 0,
    overdueMin: Math.max(0, late),
    person,
    place,
    policy,
  } as const;
  return early ? { ...due, notBeforeAt: instantAtMinute(leastMin, clock.offsetMin) } : due;
}

/** A dressing whose own date came before it was seen spoiled was due by its date. */
function dressingItem(asked: Asked): DueItem {
  const { line, clock, limits } = asked;
  const { dressing } = line;
  if (isMissing(dressing)) return neverWritten(asked, "dressing", "care.dressing-transparent");
  const day = dressingDueDay(clock, limits);
  const { state } = dressing;
  const spoiled = clock.dressingSpoiledDay <= day && isKnown(state) && state !== "sound";
  const row = dressing.type === "gauze" ? "care.dressing-gauze" : "care.dressing-transparent";
  const item = onDay(asked, "dressing", day, spoiled ? state : "interval", row);
  return isMissing(state) ? { ...item, stateNotAsked: true } : item;
}

function connectorItem(asked: Asked): DueItem {
  const { line, clock, limits } = asked;
  const { connector } = line;
  if (isMissing(connector)) return neverWritten(asked, "connector", "care.connector-due");
  const due = connectorDueMin(clock, limits);
  const least = clock.connectorMin + limits.connectorLeastHours * 60;
  const { reason } = connector;
  const called = clock.connectorSpoiledMin <= due && isKnown(reason) && reason !== "none";
  const why = called ? reason : "interval";
  const item = atMinute(asked, "connector", due, least, why, ["care.connector-due", "care.connector-least"]);
  return isMissing(reason) ? { ...item, stateNotAsked: true } : item;
}

function setItem(asked: Asked, { kind, startedMin }: CareClock["sets"][number]): DueItem {
  const continuous = kind === "continuous";
  const least = continuous ? startedMin + asked.limits.setContinuousLeastHours * 60 : startedMin;
  const policy = continuous ? [SET_ROW[kind], "care.set-continuous-least"] : [SET_ROW[kind]];
  const due = setDueMin(kind, startedMin, asked.limits);
  return { ...atMinute(asked, "administration set", due, least, "interval", policy), setKind: kind };
}

function reviewItem(asked: Asked): DueItem {
  const { line, clock, limits } = asked;
  const row = line.setting === "ward" ? "care.review-ward" : "care.review-home";
  if (isMissing(line.reviewedAt)) return neverWritten(asked, "need review", row);
  const day = reviewDueDay(clock, limits);
  return onDay(asked, "need review", day, day === clock.nextDay ? "next visit" : "interval", row);
}
