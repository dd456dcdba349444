import { dayNumber } from "../../core/calendar/index.ts";
import { localDate, MINUTES_PER_DAY, NOON, type Moment } from "../../core/dwell/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { DatedEvent, LineFacts, LineRow } from "../line/index.ts";

const dayOf = (at: Moment): number => dayNumber(localDate(at));

function byPatient(rows: readonly LineRow[]): ReadonlyMap<string, readonly LineRow[]> {
  const people = new Map<string, LineRow[]>();
  for (const row of rows) {
    const own = people.get(row.patient);
    if (own) own.push(row);
    else people.set(row.patient, [row]);
  }
  return people;
}

/**
 * T9: a line out because the person died, and the same person alive on a later day: another line placed, in place, used
 * up or out for another reason, or an event. Nobody can tell which of the rows is wrong, so all that contradict are told.
 */
export function deadAndAlive(rows: readonly LineRow[]): ReadonlySet<LineRow> {
  const told = new Set<LineRow>();
  if (!rows.some((row) => diedOn(row) !== undefined)) return told;
  for (const own of byPatient(rows).values()) {
    const deaths = own.flatMap((row) => {
      const on = diedOn(row);
      return on === undefined ? [] : [{ row, on }];
    });
    if (deaths.length === 0) continue;
    const first = deaths.reduce((a, b) => (b.on < a.on ? b : a));
    for (const row of own) {
      if (lastAlive(row) <= first.on) continue;
      told.add(row).add(first.row);
    }
  }
  return told;
}

const diedOn = ({ end }: LineRow): number | undefined =>
  end.kind === "removed" && isKnown(end.reason) && end.reason === "died" ? dayOf(end.at) : undefined;

/** The last day a row says its person lived: the day before, where it says that they died. A clot may be found later. */
function lastAlive({ placed, end }: LineRow): number {
  const last = end.kind === "removed" || end.kind === "handed on" ? end.at : end.lastKnown;
  const died = end.kind === "removed" && isKnown(end.reason) && end.reason === "died";
  return Math.max(placed ? dayOf(placed) : -Infinity, died ? dayOf(last) - 1 : dayOf(last));
}

/**
 * E6: one infection written at two lines: the same person, the same day. It counts once, for the line with the paired
 * culture, else for the line longest in place; the other keeps the row of it, in no figure.
 * Answers the keys told, and for each losing line the events that count elsewhere.
 */
export function sharedInfections(facts: readonly LineFacts[]): {
  readonly keys: ReadonlySet<string>;
  readonly lost: ReadonlyMap<LineFacts, ReadonlySet<DatedEvent>>;
} {
  const sameDay = new Map<string, { readonly line: LineFacts; readonly event: DatedEvent }[]>();
  for (const line of facts)
    for (const event of line.events) {
      if (event.event.kind !== "infection" || event.outside) continue;
      const at = `${event.on} ${line.row.patient}`;
      const own = sameDay.get(at);
      if (own) own.push({ line, event });
      else sameDay.set(at, [{ line, event }]);
    }
  const keys = new Set<string>();
  const lost = new Map<LineFacts, Set<DatedEvent>>();
  for (const own of sameDay.values()) {
    if (new Set(own.map(({ line }) => line)).size < 2) continue;
    const [winner] = [...own].sort(
      (a, b) =>
        Number(b.event.event.pairedCulture === true) - Number(a.event.event.pairedCulture === true) ||
        (a.line.placedOn as number) - (b.line.placedOn as number),
    );
    for (const { line, event } of own) {
      keys.add(line.row.key);
      if (line === winner?.line) continue;
      const events = lost.get(line) ?? new Set();
      lost.set(line, events.add(event));
    }
  }
  return { keys, lost };
}

/** One line by its patient and the minute of its placing: two such rows that no rule stopped are two stays of it. */
export const isOneLine = (a: LineRow, b: LineRow): boolean =>
  a.patient === b.patient &&
  a.placed?.precision === "minute" &&
  b.placed?.precision === "minute" &&
  a.placed.utc === b.placed.utc;

/** Of two rows of one line: whether it left with the one and came back with the other. A line taken out comes never back. */
export const areTwoStays = (a: LineRow, b: LineRow): boolean => cameBack(a, b) || cameBack(b, a);

function cameBack({ end }: LineRow, { knownFrom }: LineRow): boolean {
  if (end.kind !== "handed on" || knownFrom === undefined) return false;
  if (end.at.precision === "minute" && knownFrom.precision === "minute") return knownFrom.utc >= end.at.utc;
  return dayOf(knownFrom) >= dayOf(end.at);
}

/** The facts with the infections that count for another line taken out of every figure. */
export const withoutLost = (facts: LineFacts, lost: ReadonlySet<DatedEvent> | undefined): LineFacts =>
  lost === undefined
    ? facts
    : { ...facts, events: facts.events.map((event) => (lost.has(event) ? { ...event, outside: true } : event)) };

const HOURS = 60;
const minuteOf = (at: Moment): number =>
  at.precision === "minute" ? at.utc : dayNumber(at.date) * MINUTES_PER_DAY + NOON;

/**
 * L3: a line and the one it replaced whose times do not meet. The link is the row's own where it has one; else a line out
 * because it was replaced is held against the person's later line that comes nearest to its end.
 *   gap = placed - out of the replaced, above `replacedGapDays` days or below -`replacedOverlapHours` hours
 * Units: minutes; a date alone is its noon. Holds: lines whose partner is in the table; the others are not told.
 */
export function badlyReplaced(
  rows: readonly LineRow[],
  { replacedGapDays, replacedOverlapHours }: Pick<CountLimits, "replacedGapDays" | "replacedOverlapHours">,
): ReadonlySet<string> {
  const keys = new Set<string>();
  const meets = (gap: number) => gap <= replacedGapDays * MINUTES_PER_DAY && gap >= -replacedOverlapHours * HOURS;
  const gapOf = (old: LineRow, next: LineRow): number | undefined =>
    next.placed === undefined
      ? undefined
      : old.end.kind === "removed" || old.end.kind === "handed on"
        ? minuteOf(next.placed) - minuteOf(old.end.at)
        : -Infinity;
  const links = rows.filter(({ checks }) => checks !== undefined && isKnown(checks.replaces));
  const linked = new Set<string>();
  if (links.length > 0) {
    const byKey = new Map(rows.map((row) => [row.key, row]));
    for (const next of links) {
      const old = byKey.get(next.checks?.replaces as string);
      const gap = old && gapOf(old, next);
      if (old) linked.add(old.key);
      if (old && gap !== undefined && !meets(gap)) keys.add(old.key).add(next.key);
    }
  }
  const replaced = rows.filter(
    ({ end, key, placed }) =>
      placed && end.kind === "removed" && isKnown(end.reason) && end.reason === "replaced" && !linked.has(key),
  );
  if (replaced.length === 0) return keys;
  const people = byPatient(rows);
  for (const old of replaced) {
    const gaps = (people.get(old.patient) ?? []).flatMap((next) => {
      const later = next.placed !== undefined && minuteOf(next.placed) > minuteOf(old.placed as Moment);
      const gap = later ? gapOf(old, next) : undefined;
      return gap === undefined ? [] : [{ next, gap }];
    });
    if (gaps.length === 0) continue;
    const nearest = gaps.reduce((a, b) => (Math.abs(b.gap) < Math.abs(a.gap) ? b : a));
    if (!meets(nearest.gap)) keys.add(old.key).add(nearest.next.key);
  }
  return keys;
}
