import {
  armMap,
  audit,
  wardFunnel,
  type AuditRules,
  type AuditTable,
  type Measure,
  type Period,
} from "../../audit/index.ts";
import {
  armMapPlate,
  controlChart,
  eventCurve,
  lineStatesPlate,
  PAGE_INK,
  spanPlate,
  wardFunnelPlate,
  type Figure,
} from "../../figure/index.ts";
import { countPlateWords, sayMeasure, sparseLines, statesRefused, tooFewToTell } from "../../language/index.ts";
import { chartOf, curveOf, spansOf, statesOf, type drawnAs } from "./plate-numbers.ts";

// The plates of a pressed measure, without a page: the page's own thread draws them of a small table, another of a large one.

/** What is drawn, but for the table and the rules it is counted by. */
export interface PlatesAsked {
  readonly measure: Measure;
  readonly period: Period;
  readonly drawn: ReturnType<typeof drawnAs>;
  readonly width: number;
}

interface Drawn extends PlatesAsked {
  readonly table: AuditTable;
  readonly rules: AuditRules;
}

/** A line under the plates, and what it is about. */
export interface PlateNote {
  readonly about: "guard" | "no-curve" | "no-states";
  readonly text: string;
}

const LAST_DAY = countPlateWords.curveDays.at(-1) ?? 90;
/** A span's column is at least this wide, and beside the columns stands the scale. */
const COLUMN = 20;
const BESIDE = 68;

type Draw = (asked: Drawn) => Figure | undefined;
/** The plates in their order; one that has nothing to draw is left out. A share has its first alone. */
const PLATES: readonly Draw[] = [
  (asked) => {
    const most = Math.floor((asked.width - BESIDE) / COLUMN);
    return spanPlate({
      id: "count-rate",
      ...asked.drawn,
      ...spansOf(asked, most),
      ...shared(asked),
    });
  },
  (asked) => {
    const chart = chartOf(asked);
    return chart && controlChart({ id: "count-chart", ...chart, ...shared(asked) });
  },
  (asked) => {
    const curve = curveOf(asked, LAST_DAY);
    return curve && !curve.tooFew ? eventCurve({ id: "count-curve", ...curve, ...shared(asked) }) : undefined;
  },
  ({ table, measure, period, rules, width }) => {
    const map = armMap(table, measure, period, "position along the arm", rules);
    // of too few days everywhere there is nothing to draw
    return map.cells.every(({ grey }) => grey)
      ? undefined
      : armMapPlate({ id: "count-map", ...map, ...shared({ measure, width }) });
  },
  ({ table, measure, period, rules, width }) => {
    const funnel = wardFunnel(audit(table, [measure], period, ["ward"], rules).figures, measure, rules.limits);
    return funnel && wardFunnelPlate({ ...funnel, id: "count-wards", ...shared({ measure, width }) });
  },
  (asked) => {
    const states = statesOf(asked, LAST_DAY);
    return states?.kind === "told"
      ? lineStatesPlate({ ...states, id: "count-states", width: asked.width, ink: PAGE_INK })
      : undefined;
  },
];

const shared = ({ measure, width }: Pick<Drawn, "measure" | "width">) => ({
  title: sayMeasure(measure.id),
  clock: measure.clock,
  width,
  ink: PAGE_INK,
});

/** How many plates a measure may have: a share its first alone, a bare count none. */
export const plateCount = ({ measure, drawn }: Pick<PlatesAsked, "measure" | "drawn">): number =>
  measure.numerator.count === "events" ? PLATES.length : drawn.interval.name === "exact binomial" ? 1 : 0;

export const drawPlate = (at: number, asked: Drawn): Figure | undefined => PLATES[at]?.(asked);

/** What the curves rest on, and why one was not drawn: what was found, the rule, what to do. */
export function plateNotes(asked: Drawn): readonly PlateNote[] {
  if (asked.measure.numerator.count !== "events") return [];
  const curve = curveOf(asked, LAST_DAY);
  const states = statesOf(asked, LAST_DAY);
  const fewest = asked.rules.limits.fewestForEstimate;
  return [
    ...(curve?.tooFew ? [{ about: "no-curve", text: tooFewToTell(curve.events, fewest) } as const] : []),
    ...(curve && !curve.tooFew ? sparseLines(curve.guards).map((text) => ({ about: "guard", text }) as const) : []),
    ...(states && states.kind !== "told"
      ? [{ about: "no-states", text: statesRefused(states).join(" ") } as const]
      : []),
  ];
}
