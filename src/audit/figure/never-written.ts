import { isKnown } from "../../core/missing/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";

const FLAGS = { clinical: "clinical", surveillance: "surveillance", "paired culture": "pairedCulture" } as const;

/**
 * The measures of events to which the whole table holds no word: no event of the kind, or none with its flag answered.
 *   A zero of these may mean that nobody asks, so no rate and no limit is told of them.
 * Units: none. Holds: any table; of an empty one nothing is said. Source: common practice, no source: a form without
 * the box counts none. Example: see reference/by-hand/count/glance.test.ts.
 */
export function neverWritten({ lines }: AuditTable, measures: readonly Measure[]): readonly Measure["id"][] {
  if (lines.length === 0) return [];
  const written = new Set<string>();
  for (const { events } of lines)
    for (const event of events) {
      written.add(event.kind);
      if (event.kind !== "infection") continue;
      for (const [flag, field] of Object.entries(FLAGS)) if (isKnown(event[field])) written.add(flag);
    }
  return measures.flatMap(({ id, numerator }) => {
    if (numerator.count !== "events") return [];
    const { event, flag } = numerator;
    const asked = flag === "any" ? event : flag;
    return asked === "any" || written.has(asked) ? [] : [id];
  });
}
