import { ROW_EVENTS, type AuditTable, type RowEventKind } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { packedOf, type PackedLines } from "../packed/index.ts";

type EventNumerator = Extract<Measure["numerator"], { readonly count: "events" }>;

/** What a whole table writes of events: their kinds, and the flags that any infection answers; undefined of an empty one. */
export type Written = ReadonlySet<string> | undefined;

const INFECTION = ROW_EVENTS.indexOf("infection");
const WRITTEN = new WeakMap<PackedLines, { readonly written: Written }>();

/** Every kind of event and every answered flag of a table, rows that a rule stops included: they were written all the same. */
export function writtenIn(lines: PackedLines): Written {
  const kept = WRITTEN.get(lines);
  if (kept) return kept.written;
  const written = lines.count === 0 ? undefined : scan(lines);
  WRITTEN.set(lines, { written });
  return written;
}

function scan({ events }: PackedLines): ReadonlySet<string> {
  const kinds = new Uint8Array(ROW_EVENTS.length);
  const flags = {
    clinical: events.clinical,
    surveillance: events.surveillance,
    "surveillance without mucosal barrier": events.mucosal,
    "paired culture": events.pairedCulture,
  };
  const written = new Set<string>();
  for (let event = 0; event < events.kind.length; event += 1) {
    const kind = events.kind[event] as number;
    kinds[kind] = 1;
    if (kind !== INFECTION) continue;
    for (const [flag, column] of Object.entries(flags)) if ((column[event] as number) >= 0) written.add(flag);
  }
  for (const [at, kind] of ROW_EVENTS.entries()) if (kinds[at] === 1) written.add(kind);
  return written;
}

/** Whether a table holds no word of what a measure counts; all kinds together only where it holds none of any. */
export function isNeverWritten(written: Written, { event, flag }: EventNumerator): boolean {
  if (written === undefined) return false;
  if (flag !== "any") return !written.has(flag);
  return event === "any" ? !ROW_EVENTS.some((kind) => written.has(kind)) : !written.has(event);
}

/** The kinds a sum over all kinds is without, for nobody ever wrote one; none for a measure of one kind. */
export const unwrittenKinds = (written: Written, { event }: EventNumerator): readonly RowEventKind[] =>
  event !== "any" || written === undefined ? [] : ROW_EVENTS.filter((kind) => !written.has(kind));

/** What a table is silent on: all that a measure counts, or some kinds of a sum over all kinds. */
export interface Silence {
  readonly neverWritten: boolean;
  readonly unwritten: readonly RowEventKind[];
}

/** What nobody ever wrote of a measure of events: a chart, a curve, a model and a map say it as a rate does. */
export function silenceOf(table: AuditTable, { numerator }: Pick<Measure, "numerator">): Silence {
  if (numerator.count !== "events") return { neverWritten: false, unwritten: [] };
  const written = writtenIn(packedOf(table));
  return { neverWritten: isNeverWritten(written, numerator), unwritten: unwrittenKinds(written, numerator) };
}

/**
 * The measures of events to which the whole table holds no word: no event of the kind, or none with its flag answered.
 *   A zero of these may mean that nobody asks, so no rate and no limit is told of them.
 * Units: none. Holds: any table; of an empty one nothing is said. Source: common practice, no source: a form without
 * the box counts none. Example: see reference/by-hand/count/glance.test.ts.
 */
export function neverWritten(table: AuditTable, measures: readonly Measure[]): readonly Measure["id"][] {
  return measures.flatMap((measure) => (silenceOf(table, measure).neverWritten ? [measure.id] : []));
}
