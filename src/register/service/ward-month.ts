import type { CivilDate } from "../../core/calendar/index.ts";
import { isMissing, missing, type Maybe } from "../../core/missing/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { confirmedIn, type Entry, type Recorded } from "../field/index.ts";
import { readHistory, standing, type Happening, type History } from "../fold/index.ts";
import type { WARD_COUNTS } from "./memory-events.ts";
import { monthOf, type Written } from "./service-memory.ts";

/** A ward's month as somebody counted it, as it reads today. */
export interface KeptWardMonth extends Written {
  readonly ward: string;
  readonly month: CivilDate;
  readonly counts: Maybe<(typeof WARD_COUNTS)[number]>;
  readonly patientDays: Maybe<number>;
  /** Patients with a line, counted every day. */
  readonly dailyLineDays: Maybe<number>;
  /** On one weekday: how many days, and of those days patients with a line and all. */
  readonly sampledDays: Maybe<number>;
  readonly sampledWithLine: Maybe<number>;
  readonly sampledAll: Maybe<number>;
  readonly countedBy: string;
  /** Values that were corrected. */
  readonly corrected: number;
  /** Written again for the same ward and month, by somebody who did not know of it; the first stands. */
  readonly again: readonly Written[];
}

/**
 * The months that wards counted, by ward and month: corrections in place, voided entries left out. Of two entries for one
 * ward and month the one that the record took first stands, and names the other. One without a ward or a month is left
 * out here and stays in the history.
 */
export function wardMonths(history: History): readonly KeptWardMonth[] {
  const kept = new Map<string, KeptWardMonth>();
  const inOrder = [...standing(readHistory(history))].sort((a, b) => a.event.version - b.event.version);
  for (const happening of inOrder) {
    const one = happening.event.type === "WardMonthCounted" ? monthFrom(happening) : undefined;
    if (!one) continue;
    const key = wardMonthKey(one.ward, one.month);
    const first = kept.get(key);
    const { id, at, author } = one;
    kept.set(key, first ? { ...first, again: [...first.again, { id, at, author }] } : one);
  }
  const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
  return [...kept.values()].sort((a, b) => order(a.ward, b.ward) || order(a.month, b.month));
}

/** One ward and month, however the ward's name was spaced or capitalised. */
const wardMonthKey = (ward: string, month: string): string =>
  `${month.slice(0, 7)} ${ward.trim().replaceAll(/\s+/g, " ").toLowerCase()}`;

function monthFrom(happening: Happening): KeptWardMonth | undefined {
  const said = happening.entry as EntryOf<"WardMonthCounted">;
  const [ward, month] = [confirmedIn(said.ward)?.trim().replaceAll(/\s+/g, " "), monthOf(confirmedIn(said.month))];
  if (!ward || !month) return undefined;
  const { event, struck } = happening;
  return {
    id: event.id,
    at: event.happenedAt,
    author: event.author,
    ward,
    month,
    counts: known(said.linesCounted),
    patientDays: known(said.patientDays),
    dailyLineDays: known(said.dailyLineDays),
    sampledDays: known(said.sampledDays),
    sampledWithLine: known(said.sampledWithLine),
    sampledAll: known(said.sampledAll),
    countedBy: confirmedIn(said.countedBy) ?? "",
    corrected: struck.length,
    again: [],
  };
}

function known<Value>(recorded: Recorded<Value> | undefined): Maybe<Value> {
  const value = confirmedIn(recorded);
  if (value !== undefined) return value;
  return missing(recorded !== undefined && "missing" in recorded ? recorded.missing : "not asked");
}

/**
 * Why a ward's month is not taken as it stands.
 *   ward-missing              nobody said which ward
 *   month-unreadable          a month is four digits, a dash and two
 *   month-not-over            a month is counted when it is over
 *   month-counted             this ward and month are in the record: that entry is corrected
 *   lines-counted-missing     nobody said which lines were counted
 *   patient-days-missing      without them no share and no sampled month
 *   line-days-missing         neither a count of every day nor a sample
 *   sample-incomplete         a sample is days, patients with a line and all patients
 *   more-with-line-than-all   more patients with a line than patients, or more on the sampled days than in the month
 */
export type WardMonthRefusal =
  | "ward-missing"
  | "month-unreadable"
  | "month-not-over"
  | "month-counted"
  | "lines-counted-missing"
  | "patient-days-missing"
  | "line-days-missing"
  | "sample-incomplete"
  | "more-with-line-than-all";

/** Whether a month may be written beside those already counted; undefined when it may. Example: March twice is "month-counted". */
export function decideWardMonth(
  counted: readonly KeptWardMonth[],
  entry: Entry,
  today: CivilDate,
): WardMonthRefusal | undefined {
  const said = entry as EntryOf<"WardMonthCounted">;
  const [ward, month] = [confirmedIn(said.ward)?.trim() ?? "", monthOf(confirmedIn(said.month))];
  if (ward === "") return "ward-missing";
  if (!month) return "month-unreadable";
  if (month.slice(0, 7) >= today.slice(0, 7)) return "month-not-over";
  const key = wardMonthKey(ward, month);
  if (counted.some((one) => wardMonthKey(one.ward, one.month) === key)) return "month-counted";
  if (isMissing(known(said.linesCounted))) return "lines-counted-missing";
  const [all, daily] = [known(said.patientDays), known(said.dailyLineDays)];
  if (isMissing(all)) return "patient-days-missing";
  const sample = [known(said.sampledDays), known(said.sampledWithLine), known(said.sampledAll)];
  const given = sample.filter((one): one is number => !isMissing(one));
  if (isMissing(daily) && given.length === 0) return "line-days-missing";
  if (given.length > 0 && given.length < sample.length) return "sample-incomplete";
  const [, withLine = 0, sampledAll = 0] = given;
  const most = Math.max(isMissing(daily) ? 0 : daily, sampledAll);
  return withLine > sampledAll || most > all ? "more-with-line-than-all" : undefined;
}
