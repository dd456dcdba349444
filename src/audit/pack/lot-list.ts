import { dayNumber, parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { isKnown, isMissing } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { lotKey, type LotView } from "../../register/index.ts";
import type { AuditTable, LineRow } from "../line/index.ts";

/** A lot as the count reads it; its key is the one that lines carry. */
export interface LotRow {
  readonly key: string;
  /** Undefined where nobody wrote it, or wrote no date. */
  readonly expiresOn: CivilDate | undefined;
  readonly received: number;
  readonly discarded: number;
  readonly recalled: boolean;
}

export interface ExpiringLot {
  readonly lot: string;
  readonly expiresOn: CivilDate | undefined;
  /** Days from the table to the last day it may be used; below 0 once past; undefined without a date. */
  readonly daysLeft: number | undefined;
  readonly left: number;
}

export interface RecalledLot {
  readonly lot: string;
  /** Keys of lines in place. */
  readonly stillIn: readonly string[];
  /** Nobody knows whether these are in: they must be reached too. */
  readonly unknownEnds: readonly string[];
  /** Another service answers for these and must be told. */
  readonly handedOn: readonly string[];
}

export interface PackLots {
  readonly expiring: readonly ExpiringLot[];
  readonly recalled: readonly RecalledLot[];
  /** Lines in place or of unknown end with no lot written, while any lot is recalled: each of them may be one. */
  readonly lotMissing: readonly string[];
}

/** Lots of the record; a lot number is its own key, as lines of the record carry it. */
export const lotRowsFromRegister = (lots: readonly LotView[]): readonly LotRow[] =>
  lots.map(({ lotNumber, expiresOn, received, discarded, recalled }) => ({
    key: lotNumber,
    expiresOn: parseCivilDate(expiresOn),
    received,
    discarded,
    recalled: recalled !== undefined,
  }));

/**
 * Lots to act on, as the table stood: those near or past their date with some left, and those called back with lines
 * still in, their unknown ends among them.
 *   left = received - discarded - lines that carry the lot; near: date - today <= the policy's days
 * Units: days, pieces. Holds: any lots; a lot without a date and one with more used than received are listed, not hidden.
 * Lots are told apart as on a sticker (O is 0, I and L are 1). Source: common practice, no source.
 */
export function lotsToActOn(
  lots: readonly LotRow[],
  { lines, asOf }: AuditTable,
  { lotExpiryDays }: Pick<CountLimits, "lotExpiryDays">,
): PackLots {
  const today = dayNumber(localDate(asOf));
  const byLot = new Map<string, LineRow[]>();
  for (const row of lines) {
    if (!isKnown(row.lot)) continue;
    const key = lotKey(row.lot);
    const own = byLot.get(key);
    if (own) own.push(row);
    else byLot.set(key, [row]);
  }
  const expiring = lots
    .map(({ key, expiresOn, received, discarded }): ExpiringLot => ({
      lot: key,
      expiresOn,
      daysLeft: expiresOn && dayNumber(expiresOn) - today,
      left: received - discarded - (byLot.get(lotKey(key))?.length ?? 0),
    }))
    .filter(({ daysLeft, left }) => left !== 0 && (daysLeft === undefined || daysLeft <= lotExpiryDays))
    .sort((a, b) => (a.daysLeft ?? -Infinity) - (b.daysLeft ?? -Infinity) || (a.lot < b.lot ? -1 : 1));
  const recalled = lots
    .filter((lot) => lot.recalled)
    .map(({ key }): RecalledLot => {
      const own = byLot.get(lotKey(key)) ?? [];
      const ended = (kind: LineRow["end"]["kind"]) => own.filter(({ end }) => end.kind === kind).map((row) => row.key);
      return { lot: key, stillIn: ended("in place"), unknownEnds: ended("unknown"), handedOn: ended("handed on") };
    });
  const open = lines.filter(({ lot, end }) => isMissing(lot) && (end.kind === "in place" || end.kind === "unknown"));
  return { expiring, recalled, lotMissing: recalled.length > 0 ? open.map(({ key }) => key) : [] };
}
