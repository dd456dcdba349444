import { dayNumber } from "../../core/calendar/index.ts";
import type { LineClock } from "../../core/dwell/index.ts";
import { missing } from "../../core/missing/index.ts";
import { smoothRates, type SmoothRate } from "../../core/shrinkage/index.ts";
import { countedEvents, dayCounter, type AuditRules, type Period } from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { isAbsent, packedNumber, type PackedFacts } from "../packed/index.ts";
import { checkColumns, ratioAgrees } from "../quality/index.ts";

/** Along the arm from the medial epicondyle (0) to the axillary line (1), or catheter over vein. */
export const MAP_AXES = ["position along the arm", "catheter over vein"] as const;
export type MapAxis = (typeof MAP_AXES)[number];

export interface MapCell {
  /** Shares of one; a value at the upper edge belongs to the next cell. */
  readonly from: number;
  readonly to: number;
  readonly events: number;
  readonly lineDays: number;
  /** Per 1000 days, drawn towards the neighbours, with its limits; undefined where the service has no events at all. */
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  /** Too few days in it and beside it: shown grey and without a rate to read. */
  readonly grey: boolean;
}

export interface ArmMap {
  readonly measure: string;
  readonly axis: MapAxis;
  readonly clock: LineClock;
  readonly cells: readonly MapCell[];
  readonly smoothing: number | undefined;
  /** One rate fits all cells: the data show no difference along the axis. */
  readonly flat: boolean;
  readonly used: number;
  readonly given: number;
}

/** Where the cells of an axis begin and end; fine enough to draw, wide enough to hold days. */
const AXES: Readonly<Record<MapAxis, { readonly from: number; readonly width: number; readonly cells: number }>> = {
  "position along the arm": { from: 0, width: 1 / 18, cells: 18 },
  "catheter over vein": { from: 0.1, width: 0.05, cells: 14 },
};
const PER = 1000;

/**
 * Where along the arm, or at which fill of the vein, a complication came: the service's own lines, smoothed with limits.
 *   events and line-days by cell, then `smoothRates`; grey where a cell and its two neighbours hold fewer days than policy
 * Units: per 1000 days of the measure's clock. Holds: an event measure, else RangeError; lines without the value, or with an
 * impossible ratio, are left out and counted. A map is no cause: easy arms and hard arms get different lines.
 * Source: as `smoothRates`. Example: reference/independent/count.
 */
export function armMap(table: AuditTable, measure: Measure, period: Period, axis: MapAxis, rules: AuditRules): ArmMap {
  const { numerator, clock } = measure;
  if (numerator.count !== "events" || clock === "none")
    throw new RangeError(`The measure ${measure.id} counts no events.`);
  const { from, width, cells } = AXES[axis];
  const events = new Float64Array(cells);
  const days = new Float64Array(cells);
  const checked = checkColumns(table, rules.limits, rules.surveillance);
  const { facts, stopped } = checked;
  const value = valueOf(facts, axis, rules);
  const placeOf = (line: number): number | undefined => {
    const own = value(line);
    if (isAbsent(own)) return undefined;
    return Math.min(cells - 1, Math.max(0, Math.floor((own - from) / width + 1e-9)));
  };
  const [opens, closes] = [dayNumber(period.from), dayNumber(period.to)];
  const daysIn = dayCounter(facts.stays, { period, opens, closes }, clock);
  let [used, given] = [0, 0];
  const eventful: number[] = [];
  for (let line = 0; line < stopped.length; line += 1) {
    if (stopped[line] === 1) continue;
    if (facts.lines.events.from[line] !== facts.lines.events.from[line + 1]) eventful.push(line);
    const own = daysIn(line);
    if (!(own > 0)) continue;
    given += 1;
    const place = placeOf(line);
    if (place === undefined) continue;
    used += 1;
    days[place] = (days[place] as number) + own;
  }
  for (const line of countedEvents(checked, Int32Array.from(eventful), numerator, { opens, closes }, rules).lines) {
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
    cells: Array.from(events, (count, i): MapCell => {
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

const perThousand = (cell: SmoothRate | undefined): Pick<MapCell, "perThousand" | "lower" | "upper"> => ({
  perThousand: cell && cell.rate * PER,
  lower: cell && cell.lower * PER,
  upper: cell && cell.upper * PER,
});

function valueOf(facts: PackedFacts, axis: MapAxis, { limits }: AuditRules): (line: number) => number {
  const { lines, ratio } = facts;
  if (axis === "position along the arm") return (line) => lines.numbers.positionShare[line] as number;
  return (line) => (ratioAgrees(facts, line, limits) ? (ratio[line] as number) : packedNumber(missing("not known")));
}
