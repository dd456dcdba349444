import { lineDays, NOON } from "../../../../src/core/dwell/index.ts";
import { isKnown, type Maybe } from "../../../../src/core/missing/index.ts";
import { smoothRates, type SmoothRate } from "../../../../src/core/shrinkage/index.ts";
import { countEvents, isNear, type AuditRules, type Period } from "../../../../src/audit/index.ts";
import { ratioOf, type ArmMap, type MapAxis, type AuditTable, type LineFacts } from "../../../../src/audit/index.ts";
import type { Measure } from "../../../../src/audit/index.ts";
import { checkRows, ratioIsPossible } from "../../../../src/audit/index.ts";

/** Where the cells of an axis begin and end; fine enough to draw, wide enough to hold days. */
const AXES: Readonly<Record<MapAxis, { readonly from: number; readonly width: number; readonly cells: number }>> = {
  "position along the arm": { from: 0, width: 1 / 18, cells: 18 },
  "catheter over vein": { from: 0.1, width: 0.05, cells: 14 },
};
const PER = 1000;

/** The map as it reads: line by line. */
export function slowMap(table: AuditTable, measure: Measure, period: Period, axis: MapAxis, rules: AuditRules): ArmMap {
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
  const smooth = events.some((count) => count > 0)
    ? smoothRates({ count: events, exposure: days }, rules.limits.level)
    : undefined;
  return {
    measure: measure.id,
    axis,
    clock,
    cells: Array.from(events, (count, i): ArmMap["cells"][number] => {
      const near = (days[i - 1] ?? 0) + (days[i] as number) + (days[i + 1] ?? 0);
      const cell = smooth?.cells[i];
      return {
        from: from + i * width,
        to: from + (i + 1) * width,
        events: count,
        lineDays: days[i] as number,
        ...perThousand(cell),
        grey: days[i] === 0 || near < rules.limits.mapLeastDays,
      };
    }),
    smoothing: smooth?.smoothing,
    flat: smooth?.flat ?? true,
    used,
    given,
  };
}

const perThousand = (
  cell: SmoothRate | undefined,
): Pick<ArmMap["cells"][number], "perThousand" | "lower" | "upper"> => ({
  perThousand: cell && cell.rate * PER,
  lower: cell && cell.lower * PER,
  upper: cell && cell.upper * PER,
});

function valueOf({ row }: LineFacts, axis: MapAxis, { limits }: AuditRules): Maybe<number> {
  if (axis === "position along the arm") return row.positionShare;
  return ratioIsPossible(row, limits) ? ratioOf(row) : { missing: "not known" };
}
