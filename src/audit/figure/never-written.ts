import { ROW_EVENTS, type AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { packedOf } from "../packed/index.ts";

const FLAGS = [
  ["clinical", "clinical"],
  ["surveillance", "surveillance"],
  ["paired culture", "pairedCulture"],
] as const;

/**
 * The measures of events to which the whole table holds no word: no event of the kind, or none with its flag answered.
 *   A zero of these may mean that nobody asks, so no rate and no limit is told of them.
 * Units: none. Holds: any table; of an empty one nothing is said. Source: common practice, no source: a form without
 * the box counts none. Example: see reference/by-hand/count/glance.test.ts.
 */
export function neverWritten(table: AuditTable, measures: readonly Measure[]): readonly Measure["id"][] {
  const { count, events } = packedOf(table);
  if (count === 0) return [];
  const written = new Set<string>();
  const infection = ROW_EVENTS.indexOf("infection");
  for (let at = 0; at < events.kind.length; at += 1) {
    const kind = events.kind[at] as number;
    written.add(ROW_EVENTS[kind] as string);
    if (kind !== infection) continue;
    // an answer is yes or no; below zero it is one of the four absences
    for (const [flag, field] of FLAGS) if ((events[field][at] as number) >= 0) written.add(flag);
  }
  return measures.flatMap(({ id, numerator }) => {
    if (numerator.count !== "events") return [];
    const { event, flag } = numerator;
    const asked = flag === "any" ? event : flag;
    return asked === "any" || written.has(asked) ? [] : [id];
  });
}
