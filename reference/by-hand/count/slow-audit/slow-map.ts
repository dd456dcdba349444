import { lineDays, NOON } from "../../../../src/core/dwell/index.ts";
import { isKnown, type Maybe } from "../../../../src/core/missing/index.ts";
import { isNear, type AuditRules, type Period } from "../../../../src/audit/index.ts";
import { ratioOf, type MapAxis, type AuditTable, type LineFacts } from "../../../../src/audit/index.ts";
import type { Measure } from "../../../../src/audit/index.ts";
import { checkRows, ratioIsPossible } from "../../../../src/audit/index.ts";
import { countEvents } from "./event-count.ts";

/** Where the cells of an axis begin and end; fine enough to draw, wide enough to hold days. */
const AXES: Readonly<Record<MapAxis, { readonly from: number; readonly width: number; readonly cells: number }>> = {
  "position along the arm": { from: 0, width: 1 / 18, cells: 18 },
  "catheter over vein": { from: 0.1, width: 0.05, cells: 14 },
};

/** What the cells of a map hold, and of how many lines. */
export interface HeldInMap {
  readonly cells: readonly { readonly events: number; readonly lineDays: number }[];
  readonly used: number;
  readonly given: number;
}

/** The cells of the map as they read: line by line. */
export function slowMap(
  table: AuditTable,
  measure: Measure,
  period: Period,
  axis: MapAxis,
  rules: AuditRules,
): HeldInMap {
  const { numerator, clock } = measure;
  if (numerator.count !== "events" || clock === "none")
    throw new RangeError(`The measure ${measure.id} counts no events.`);
  const { from, width, cells } = AXES[axis];
  const events = new Float64Array(cells);
  const days = new Float64Array(cells);
  const { facts } = checkRows(table, rules.limits, rules.surveillance);
  const placeOf = (line: LineFacts): number | undefined => {
    const value = valueOf(line, axis, rules);
    if (!isKnown(value)) return undefined;
    return Math.min(cells - 1, Math.max(0, Math.floor((value - from) / width + 1e-9)));
  };
  let [used, given] = [0, 0];
  for (const line of facts) {
    if (!line.stay || !isNear(line, period)) continue;
    const own = lineDays([line.stay], period, clock, NOON);
    if (own.linesUsed === 0) continue;
    given += 1;
    const place = placeOf(line);
    if (place === undefined) continue;
    used += 1;
    days[place] = (days[place] as number) + own.days;
  }
  for (const { line } of countEvents(facts, numerator, period, rules.surveillance).counted) {
    const place = placeOf(line);
    // an event just after removal may fall into a period that holds no day of its line
    if (place !== undefined && (days[place] as number) > 0) events[place] = (events[place] as number) + 1;
  }
  return {
    cells: Array.from(events, (count, place) => ({ events: count, lineDays: days[place] as number })),
    used,
    given,
  };
}

function valueOf({ row }: LineFacts, axis: MapAxis, { limits }: AuditRules): Maybe<number> {
  if (axis === "position along the arm") return row.positionShare;
  return ratioIsPossible(row, limits) ? ratioOf(row) : { missing: "not known" };
}
