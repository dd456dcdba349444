import { dayNumber } from "../../../../src/core/calendar/index.ts";
import {
  lineDays,
  localDate,
  NOON,
  type LineClock,
  type Stay,
  type SurveillanceRule,
} from "../../../../src/core/dwell/index.ts";
import { isKnown } from "../../../../src/core/missing/index.ts";
import { day } from "../../../../src/core/quantity/index.ts";
import type { CountLimits } from "../../../../src/policy/index.ts";
import type { LineFacts, ReferralRow } from "../../../../src/audit/index.ts";
import { claimedEvent } from "../../../../src/audit/index.ts";
import type { Figure, Period } from "../../../../src/audit/index.ts";
import { stratumOf, type StratumName } from "../../../../src/audit/index.ts";

/** What an audit is held to: the local limits and the surveillance rule in force. */
export interface AuditRules {
  readonly limits: CountLimits;
  readonly surveillance: SurveillanceRule;
}

export interface Scene extends AuditRules {
  readonly period: Period;
  readonly opens: number;
  readonly closes: number;
  readonly provisionalDay: number;
  /** Every kind of event that any row of the table names, and every flag that any infection answers. */
  readonly written: readonly string[];
}

/** Rows of one stratum. Referrals are split by ward only: nothing else is known of them. */
export interface Part {
  readonly stratum: Figure["stratum"];
  readonly lines: readonly LineFacts[];
  /** Of these, those that can have a day in the period, and those with something to count or a reason that claims it. */
  readonly near: readonly LineFacts[];
  readonly eventful: readonly LineFacts[];
  readonly referrals: readonly ReferralRow[];
  /** Rows a stop rule took out; told with the whole service, for their stratum is not believed. */
  readonly stopped: number;
}

/** Far more than any window after removal or any repeat frame: no event of an older line can touch the period. */
const LONGEST_AFTER = 400;

/** Lines that could matter to the period at all; the others cost time and no figure. */
export const mayCount = ({ placedOn, endedOn }: LineFacts, { opens, closes }: Scene): boolean =>
  (placedOn as number) < closes && (endedOn === undefined || endedOn >= opens - LONGEST_AFTER);

/** Two days on each side: more than any offset can move an edge of a stay. */
const NEAR = 2;

/** Lines that can have a day in the period; what is far from it is passed over unread. */
export const isNear = ({ placedOn, endedOn }: LineFacts, { from, to }: Period): boolean =>
  placedOn !== undefined &&
  placedOn < dayNumber(to) + NEAR &&
  (endedOn === undefined || endedOn >= dayNumber(from) - NEAR);

/** The day from which a line is the service's own: a line that came with the patient from when it was known. */
export const seenFrom = ({ row, placedOn }: LineFacts): number =>
  row.knownFrom === undefined ? (placedOn as number) : dayNumber(localDate(row.knownFrom));

/** Nobody knows what became of it, and it was last seen before a day: what happened on that day may be hidden. */
export const isLostBefore = ({ row }: LineFacts, day: number): boolean =>
  row.end.kind === "unknown" && dayNumber(localDate(row.end.lastKnown)) < day;

/** A part with what every measure asks of it picked out once. */
export const partOf = (part: Pick<Part, "stratum" | "lines" | "referrals" | "stopped">, period: Period): Part => ({
  ...part,
  near: part.lines.filter((line) => isNear(line, period)),
  eventful: part.lines.filter(
    ({ events, row }) => [...events, ...(row.undated ?? [])].length > 0 || claimedEvent(row) !== undefined,
  ),
});

/** The parts of the service by one thing; not known is a part of its own. */
export function partsBy(by: StratumName, whole: Part, limits: CountLimits, period: Period): readonly Part[] {
  const lines = new Map<string, LineFacts[]>();
  const referrals = new Map<string, ReferralRow[]>();
  for (const line of whole.lines) {
    const value = stratumOf(line.row, by, limits);
    const own = lines.get(value);
    if (own) own.push(line);
    else lines.set(value, [line]);
  }
  if (by === "ward")
    for (const referral of whole.referrals) {
      const value = isKnown(referral.ward) ? referral.ward : "not known";
      referrals.set(value, [...(referrals.get(value) ?? []), referral]);
    }
  return [...new Set([...lines.keys(), ...referrals.keys()])]
    .sort(inOrder)
    .map((value) =>
      partOf(
        { stratum: { by, value }, lines: lines.get(value) ?? [], referrals: referrals.get(value) ?? [], stopped: 0 },
        period,
      ),
    );
}

const collator = new Intl.Collator("en", { numeric: true });
/** "not known" stands last; the others by their own order. */
const inOrder = (a: string, b: string): number =>
  Number(a === "not known") - Number(b === "not known") || collator.compare(a, b);

type Days = ReturnType<typeof lineDays>;
interface PartDays {
  readonly fewest: Days;
  readonly mostDays: Days["days"];
  /** Lines that may have had a day in the period. */
  readonly mayUse: number;
}

/** Days of a part on a clock are asked for by every measure: they are counted once for each part. */
const COUNTED = new WeakMap<Part, Map<string, PartDays>>();

export function daysOf(part: Part, period: Period, clock: LineClock): PartDays {
  const own = COUNTED.get(part) ?? new Map<string, PartDays>();
  COUNTED.set(part, own);
  const kept = own.get(clock);
  if (kept) return kept;
  const { near } = part;
  const fewest = countDays(
    near.map(({ stay }) => stay),
    period,
    clock,
  );
  // only a line of unknown end can have been in for longer
  const unknown = near.filter(({ row }) => row.end.kind === "unknown");
  const seen = countDays(
    unknown.map(({ stay }) => stay),
    period,
    clock,
  );
  const longest = countDays(
    unknown.map((line) => line.longest),
    period,
    clock,
  );
  const counted = {
    fewest,
    mostDays: day(fewest.days + Math.max(0, longest.days - seen.days)),
    mayUse: fewest.linesUsed + longest.linesUsed - seen.linesUsed,
  };
  own.set(clock, counted);
  return counted;
}

export const countDays = (stays: readonly (Stay | undefined)[], period: Period, clock: LineClock): Days =>
  lineDays(
    stays.filter((stay): stay is Stay => stay !== undefined),
    period,
    clock,
    NOON,
  );
