import {
  addDays,
  civilDateFromDayNumber,
  dayNumber,
  parseCivilDate,
  type CivilDate,
} from "../../core/calendar/index.ts";
import { chiSquareTail } from "../../core/distribution/index.ts";
import { localDate, NOON, patientDays } from "../../core/dwell/index.ts";
import { isKnown, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { AuditTable, LineFacts, LineRow } from "../line/index.ts";

/** What a rule over the whole table tells: which of its parts, and the lines they touch. */
export interface TableTold {
  readonly about: readonly string[];
  readonly lines: readonly string[];
}

/** Values that a hazard may be split by, under the names of their columns. */
const COVARIATES = {
  side: ({ side }) => side,
  vein: ({ vein }) => vein,
  size_fr: ({ sizeFr }) => sizeFr,
  lumens: ({ lumens }) => lumens,
  vein_diameter_mm: ({ veinDiameterMm }) => veinDiameterMm,
  position_percent: ({ positionShare }) => positionShare,
  attempts: ({ attempts }) => attempts,
  setting: ({ setting }) => setting,
  age_years: ({ ageYears }) => ageYears,
  diagnosis: ({ diagnosis }) => diagnosis,
  indication: ({ indication }) => indication,
} as const satisfies Readonly<Record<string, (row: LineRow) => Maybe<unknown>>>;

const FEWEST_EXPECTED = 5;

/**
 * C4: values missing too often, or missing in other shares with an event and without.
 *   share > `missingWarned`; or chi-square of the two by two table, 1 degree, less likely than `missingDiffers`
 * Holds: values that any line has, for what nobody writes down is not missing; the comparison where each of the four
 * expected counts is 5 or more. Source: Cochran 1954, Biometrics 10:417 (from memory), for the five.
 */
export function missingValues(
  facts: readonly LineFacts[],
  limits: Pick<CountLimits, "missingWarned" | "missingDiffers">,
): TableTold {
  const about: string[] = [];
  const lines = new Set<string>();
  const withEvent = Uint8Array.from(facts, ({ events }) => (events.some(({ outside }) => !outside) ? 1 : 0));
  const eventLines = withEvent.reduce((sum, one) => sum + one, 0);
  for (const [name, of] of Object.entries(COVARIATES)) {
    let gone = 0;
    let goneWithEvent = 0;
    for (const [at, { row }] of facts.entries()) {
      if (isKnown(of(row))) continue;
      gone += 1;
      goneWithEvent += withEvent[at] as number;
    }
    if (!isGap({ all: facts.length, eventLines, gone, goneWithEvent }, limits)) continue;
    about.push(`${name} ${gone} of ${facts.length}`);
    for (const { row } of facts) if (!isKnown(of(row))) lines.add(row.key);
  }
  return { about, lines: [...lines] };
}

/** Lines of a table, those with an event, and those of each without a value. */
export interface Gap {
  readonly all: number;
  readonly eventLines: number;
  readonly gone: number;
  readonly goneWithEvent: number;
}

/** Whether a value is missing in a way that C4 tells. */
export function isGap(
  { all, eventLines, gone, goneWithEvent }: Gap,
  { missingWarned, missingDiffers }: Pick<CountLimits, "missingWarned" | "missingDiffers">,
): boolean {
  if (gone === 0 || gone === all) return false;
  const kept = { event: eventLines - goneWithEvent, none: all - eventLines - gone + goneWithEvent };
  const lost = { event: goneWithEvent, none: gone - goneWithEvent };
  return gone / all > missingWarned || differs(kept, lost, missingDiffers);
}

interface Lines {
  readonly event: number;
  readonly none: number;
}

function differs({ event: b, none: a }: Lines, { event: d, none: c }: Lines, chance: number): boolean {
  const all = a + b + c + d;
  const expected = [a + b, c + d].flatMap((row) => [a + c, b + d].map((column) => (row * column) / all));
  if (expected.some((count) => count < FEWEST_EXPECTED)) return false;
  const statistic = (all * (a * d - b * c) ** 2) / ((a + b) * (c + d) * (a + c) * (b + d));
  return chiSquareTail("upper", statistic, 1) < chance;
}

export const monthOf = (on: number): string => civilDateFromDayNumber(on).slice(0, 7);
export const firstOf = (month: string): CivilDate => parseCivilDate(`${month}-01`) as CivilDate;
export const nextMonth = (month: string): string => addDays(firstOf(month), 31).slice(0, 7);

/**
 * D3: whole months in which lines were in and none was placed, and none came out or was handed on: the writing probably
 * stopped. Holds: months after that of the first placing and before that of the table.
 */
export function silentMonths(facts: readonly LineFacts[], asOfDay: number): TableTold {
  const busyDays = new Set<number>();
  let first = Infinity;
  for (const { placedOn, endedOn } of facts) {
    if (placedOn === undefined) continue;
    first = Math.min(first, placedOn);
    busyDays.add(placedOn);
    if (endedOn !== undefined) busyDays.add(endedOn);
  }
  const busy = new Set([...busyDays].map(monthOf));
  if (first === Infinity) return { about: [], lines: [] };
  const about: string[] = [];
  const lines = new Set<string>();
  for (let month = nextMonth(monthOf(first)); month < monthOf(asOfDay); month = nextMonth(month)) {
    if (busy.has(month)) continue;
    const [from, to] = [dayNumber(firstOf(month)), dayNumber(firstOf(nextMonth(month)))];
    // a line of unknown end may have been out for long
    const open = facts.filter(
      ({ placedOn, endedOn, row }) =>
        placedOn !== undefined && placedOn < from && row.end.kind !== "unknown" && (endedOn ?? Infinity) >= to,
    );
    if (open.length === 0) continue;
    about.push(month);
    for (const { row } of open) lines.add(row.key);
  }
  return { about, lines: [...lines] };
}

export interface WardDays {
  readonly unusable: TableTold;
  readonly apart: TableTold;
}

/**
 * D1 and D2, for each month of a ward that the table has the hospital's own days of.
 *   D1: patient-days missing, or fewer than the days of patients with a line
 *   D2: days of patients with a line, by machine, off those counted by hand by more than `manualAgrees` of these
 * Units: patient-days at noon, two lines of one person counting one. Holds: lines are put to the ward they were placed on,
 * the only one the table knows, and not while they are looked after at home. Source: CDC/NHSN, Patient Safety Component
 * Manual, ch. 4 (from memory). Example: 106 by machine and 100 by hand are apart, 105 and 100 are not.
 */
export function wardDays(
  { wardMonths = [] }: Pick<AuditTable, "wardMonths">,
  facts: readonly LineFacts[],
  { manualAgrees }: Pick<CountLimits, "manualAgrees">,
): WardDays {
  const unusable = { about: [] as string[], lines: new Set<string>() };
  const apart = { about: [] as string[], lines: new Set<string>() };
  const byWard = new Map<string, LineFacts[]>();
  for (const one of wardMonths.length === 0 ? [] : facts) {
    const { ward, setting } = one.row;
    if (!isKnown(ward) || setting === "home" || !one.stay) continue;
    const own = byWard.get(ward);
    if (own) own.push(one);
    else byWard.set(ward, [one]);
  }
  for (const { ward, month, patientDays: given, manualDays, everyCentralLine } of wardMonths) {
    const name = localDate(month).slice(0, 7);
    const from = firstOf(name);
    const window = { from, to: firstOf(nextMonth(name)), fromOffset: 0, toOffset: 0 };
    const own = byWard.get(ward) ?? [];
    const stays = own.flatMap(({ stay }) => (stay ? [stay] : []));
    const { days } = patientDays(stays, window, "patient-days at census", NOON);
    const [opens, closes] = [dayNumber(window.from), dayNumber(window.to)];
    const touched = own
      .filter(({ placedOn, endedOn }) => (placedOn as number) < closes && (endedOn ?? Infinity) >= opens)
      .map(({ row }) => row.key);
    const broken = [
      ...(!isKnown(given) || given < days ? [unusable] : []),
      ...(everyCentralLine !== true && isKnown(manualDays) && Math.abs(days - manualDays) > manualAgrees * manualDays
        ? [apart]
        : []),
    ];
    for (const told of broken) {
      told.about.push(`${ward} ${name}`);
      for (const key of touched) told.lines.add(key);
    }
  }
  return { unusable: listed(unusable), apart: listed(apart) };
}

const listed = ({
  about,
  lines,
}: {
  readonly about: readonly string[];
  readonly lines: ReadonlySet<string>;
}): TableTold => ({
  about,
  lines: [...lines],
});
