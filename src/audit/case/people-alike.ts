import { localDate } from "../../core/dwell/index.ts";
import { isKnown, isMissing } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ageBand } from "../figure/index.ts";
import type { LineRow } from "../line/index.ts";

/** Few people share all three: whoever knows one of them may know them in what leaves the service. */
export interface RareGroup {
  readonly ageBand: string;
  readonly diagnosis: string;
  readonly month: string;
  readonly people: number;
}

/** What everybody may know of a person: how old, roughly for what, and in which month the line went in. */
export function knownToMany(row: LineRow, limits: Pick<CountLimits, "ageEdgesYears">): Omit<RareGroup, "people"> {
  return {
    ageBand: isKnown(row.ageYears) ? ageBand(row.ageYears, limits.ageEdgesYears) : "not known",
    diagnosis: isMissing(row.diagnosis) ? row.diagnosis.missing : row.diagnosis,
    month: row.placed ? localDate(row.placed).slice(0, 7) : "not known",
  };
}

/**
 * People of a table, each counted once, by age band, diagnosis and month of placing.
 * Units: persons. Holds: any rows; what is absent is a value of its own.
 */
export function peopleAlike(
  rows: readonly LineRow[],
  limits: Pick<CountLimits, "ageEdgesYears">,
): readonly RareGroup[] {
  const groups = new Map<string, { readonly group: Omit<RareGroup, "people">; readonly people: Set<string> }>();
  for (const row of rows) {
    const group = knownToMany(row, limits);
    const key = `${group.ageBand}|${group.diagnosis}|${group.month}`;
    const known = groups.get(key) ?? { group, people: new Set<string>() };
    known.people.add(row.patient);
    groups.set(key, known);
  }
  return [...groups.values()].map(({ group, people }) => ({ ...group, people: people.size }));
}

/** How many people share all three with a row, itself among them. */
export function peopleLike(row: LineRow, rows: readonly LineRow[], limits: Pick<CountLimits, "ageEdgesYears">): number {
  const own = knownToMany(row, limits);
  const people = new Set<string>();
  for (const other of rows) {
    const { ageBand: age, diagnosis, month } = knownToMany(other, limits);
    if (age === own.ageBand && diagnosis === own.diagnosis && month === own.month) people.add(other.patient);
  }
  return people.size;
}
