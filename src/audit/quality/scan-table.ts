import { dayNumber } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { WardMonth } from "../line/index.ts";
import { END_KINDS, isAbsent, NEVER, type PackedFacts } from "../packed/index.ts";
import { firstOf, isGap, monthOf, nextMonth, type TableTold, type WardDays } from "./table-rules.ts";

// The rules over the whole table, as scans over columns. Lines that a stop rule took out take no part.

const UNKNOWN = END_KINDS.indexOf("unknown");

/** Lines told once each, in the order they were first told. */
function listOf({ lines }: PackedFacts): {
  readonly about: string[];
  readonly add: (line: number) => void;
  readonly told: () => TableTold;
} {
  const marked = new Uint8Array(lines.count);
  const order: number[] = [];
  const about: string[] = [];
  return {
    about,
    add: (line) => {
      if (marked[line] === 1) return;
      marked[line] = 1;
      order.push(line);
    },
    told: () => ({ about, lines: order.map((line) => lines.keyAt(line)) }),
  };
}

/** As `missingValues`. */
export function missingValues(facts: PackedFacts, stopped: Uint8Array, limits: CountLimits): TableTold {
  const { lines, eventOutside } = facts;
  const { count, words, numbers, events } = lines;
  const list = listOf(facts);
  const withEvent = new Uint8Array(count);
  let [all, eventLines] = [0, 0];
  for (let line = 0; line < count; line += 1) {
    if (stopped[line] === 1) continue;
    all += 1;
    const end = events.from[line + 1] as number;
    for (let event = events.from[line] as number; event < end && withEvent[line] === 0; event += 1)
      if (eventOutside[event] === 0) withEvent[line] = 1;
    eventLines += withEvent[line] as number;
  }
  // the order of the row rule; a code below zero is an absence as a number far below zero is
  const columns: Readonly<Record<string, Float64Array | Int32Array>> = {
    side: words.side.codes,
    vein: words.vein.codes,
    size_fr: numbers.sizeFr,
    lumens: numbers.lumens,
    vein_diameter_mm: numbers.veinDiameterMm,
    position_percent: numbers.positionShare,
    attempts: numbers.attempts,
    setting: words.setting.codes,
    age_years: numbers.ageYears,
    diagnosis: words.diagnosis.codes,
    indication: words.indication.codes,
  };
  const gone = new Uint8Array(count);
  for (const [name, column] of Object.entries(columns)) {
    if (column instanceof Int32Array)
      for (let line = 0; line < count; line += 1) gone[line] = Number((column[line] as number) < 0);
    else for (let line = 0; line < count; line += 1) gone[line] = Number(isAbsent(column[line] as number));
    let [without, withoutAndEvent] = [0, 0];
    for (let line = 0; line < count; line += 1) {
      if (gone[line] === 0 || stopped[line] === 1) continue;
      without += 1;
      withoutAndEvent += withEvent[line] as number;
    }
    if (!isGap({ all, eventLines, gone: without, goneWithEvent: withoutAndEvent }, limits)) continue;
    list.about.push(`${name} ${without} of ${all}`);
    for (let line = 0; line < count; line += 1) if (gone[line] === 1 && stopped[line] === 0) list.add(line);
  }
  return list.told();
}

/** As `silentMonths`. */
export function silentMonths(facts: PackedFacts, stopped: Uint8Array, today: number): TableTold {
  const list = listOf(facts);
  const { placedOn, endedOn, lines } = facts;
  let [first, last] = [Infinity, -Infinity];
  for (let line = 0; line < lines.count; line += 1) {
    const placed = placedOn[line] as number;
    if (stopped[line] === 1 || placed === NEVER) continue;
    first = Math.min(first, placed);
    last = Math.max(last, placed, endedOn[line] as number);
  }
  if (first === Infinity) return list.told();
  const days = new Uint8Array(last - first + 1);
  for (let line = 0; line < lines.count; line += 1) {
    const [placed, ended] = [placedOn[line] as number, endedOn[line] as number];
    if (stopped[line] === 1 || placed === NEVER) continue;
    days[placed - first] = 1;
    if (ended !== NEVER) days[ended - first] = 1;
  }
  const silent: { readonly month: string; readonly from: number; readonly to: number }[] = [];
  for (let month = nextMonth(monthOf(first)); month < monthOf(today); month = nextMonth(month)) {
    const [from, to] = [dayNumber(firstOf(month)), dayNumber(firstOf(nextMonth(month)))];
    if (!days.subarray(from - first, to - first).includes(1)) silent.push({ month, from, to });
  }
  const open = openThrough(facts, stopped, silent);
  for (const { month, from, to } of silent) {
    const own = open.filter((line) => isOpen(facts, line, from, to));
    if (own.length === 0) continue;
    list.about.push(month);
    for (const line of own) list.add(line);
  }
  return list.told();
}

const isOpen = ({ placedOn, endedOn }: PackedFacts, line: number, from: number, to: number): boolean =>
  (placedOn[line] as number) < from && (endedOn[line] === NEVER || (endedOn[line] as number) >= to);

/** Lines that may be open through one of the months, ascending: those open through the first after their placing. */
function openThrough(
  facts: PackedFacts,
  stopped: Uint8Array,
  months: readonly { readonly from: number; readonly to: number }[],
): readonly number[] {
  const open: number[] = [];
  if (months.length === 0) return open;
  const { placedOn, lines } = facts;
  for (let line = 0; line < lines.count; line += 1) {
    const placed = placedOn[line] as number;
    if (stopped[line] === 1 || placed === NEVER || lines.endKind[line] === UNKNOWN) continue;
    let [low, high] = [0, months.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((months[middle] as { readonly from: number }).from > placed) high = middle;
      else low = middle + 1;
    }
    const month = months[low];
    if (month !== undefined && isOpen(facts, line, month.from, month.to)) open.push(line);
  }
  return open;
}

/** A month of a ward in its own words, and what the table counts of it. */
export interface CountedMonth {
  readonly written: WardMonth;
  /** Year and month. */
  readonly name: string;
  /** Days of patients with a line at noon, two lines of one person counting one. */
  readonly days: number;
  /** Lines with a stay that were in on a day of the month. */
  readonly own: readonly number[];
}

/** Each month of a ward that the table has; the days of a month of a person are bits of one number. */
export function countedMonths(facts: PackedFacts, stopped: Uint8Array): readonly CountedMonth[] {
  const { lines, placedOn, endedOn, stays } = facts;
  const byWard = linesByWard(facts, stopped);
  return (lines.wardMonths ?? []).map((written) => {
    const name = localDate(written.month).slice(0, 7);
    const [opens, closes] = [dayNumber(firstOf(name)), dayNumber(firstOf(nextMonth(name)))];
    const ward = byWard.get(written.ward) ?? [];
    const daysOf = new Map<number, number>();
    for (const line of ward) {
      const from = Math.max(stays.noonFirst[line] as number, opens);
      const to = Math.min(stays.noonLast[line] as number, closes - 1);
      if (to < from) continue;
      const patient = lines.patient[line] as number;
      let days = daysOf.get(patient) ?? 0;
      for (let on = from; on <= to; on += 1) days |= 1 << (on - opens);
      daysOf.set(patient, days);
    }
    let days = 0;
    for (const bits of daysOf.values()) for (let left = bits; left !== 0; left &= left - 1) days += 1;
    const own = ward.filter(
      (line) => (placedOn[line] as number) < closes && (endedOn[line] === NEVER || (endedOn[line] as number) >= opens),
    );
    return { written, name, days, own };
  });
}

/** As `wardDays`. */
export function wardDays(facts: PackedFacts, stopped: Uint8Array, { manualAgrees }: CountLimits): WardDays {
  const [unusable, apart] = [listOf(facts), listOf(facts)];
  for (const { written, name, days, own } of countedMonths(facts, stopped)) {
    const { ward, patientDays: given, manualDays, everyCentralLine } = written;
    const broken = [
      ...(!isKnown(given) || given < days ? [unusable] : []),
      // the record holds this service's lines alone: a count of all is not held against it
      ...(everyCentralLine !== true && isKnown(manualDays) && Math.abs(days - manualDays) > manualAgrees * manualDays
        ? [apart]
        : []),
    ];
    for (const { about, add } of broken) {
      about.push(`${ward} ${name}`);
      for (const line of own) add(line);
    }
  }
  return { unusable: unusable.told(), apart: apart.told() };
}

/** The lines with a stay of each ward that the table has months of, but those looked after at home. */
function linesByWard({ lines, stays }: PackedFacts, stopped: Uint8Array): ReadonlyMap<string, readonly number[]> {
  const byWard = new Map<string, number[]>();
  for (const { ward } of lines.wardMonths ?? []) byWard.set(ward, []);
  if (byWard.size === 0) return byWard;
  const { ward, setting } = lines.words;
  const home = setting.words.indexOf("home");
  const own = ward.words.map((word) => byWard.get(word));
  for (let line = 0; line < lines.count; line += 1) {
    const code = ward.codes[line] as number;
    if (stopped[line] === 1 || code < 0 || Number.isNaN(stays.from[line])) continue;
    if (home === -1 || setting.codes[line] !== home) own[code]?.push(line);
  }
  return byWard;
}
