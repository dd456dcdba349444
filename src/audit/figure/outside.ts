import { suppressSmallCells } from "../../core/disclosure/index.ts";
import type { Measure } from "../measure/index.ts";
import type { AuditReport, Figure } from "./figure.ts";
import { PRIVATE_STRATA } from "./stratum.ts";

/** A figure as it may leave the service: no keys of lines, and small counts with a second one withheld. */
export type OutsideFigure = Omit<
  Figure,
  "lines" | "numerator" | "denominator" | "value" | "interval" | "missing" | "provisional" | "used" | "given"
> & {
  /** Rows are lines, so they are counts too: told of the whole service alone, and not where they are few or withheld. */
  readonly used: number | undefined;
  readonly given: number | undefined;
  readonly numerator: number | "withheld";
  readonly denominator: number | "withheld" | undefined;
  readonly value: number | undefined;
  readonly interval: Figure["interval"];
  readonly missing: Figure["missing"] | undefined;
};

export interface OutsideReport extends Omit<AuditReport, "figures" | "issues"> {
  readonly figures: readonly OutsideFigure[];
  /** Counts withheld, so that a reader knows that something is. */
  readonly withheld: number;
}

/**
 * The figures of a report with small cells withheld, and so many others that none can be worked out from the totals.
 * The strata of one measure and one split, with the whole service as their total, are one table. Counts and shares of
 * lines have each other's counts as denominators, so what one withholds of a split all withhold. A figure by a person is
 * left out altogether.
 * Source: `suppressSmallCells`. Example: strata of 2, 8, 9 with their total: the 2 and the 8 are withheld.
 */
export function figuresForOutside(
  report: AuditReport,
  measures: readonly Measure[],
  smallestShown: number,
): OutsideReport {
  const shown = report.figures.filter(({ stratum }) => !stratum || !PRIVATE_STRATA.includes(stratum.by));
  const hidden = new Set<Figure>();
  for (const [whole, groups] of tablesOf(shown)) {
    if (smallIn(whole, smallestShown)) hidden.add(whole);
    for (const group of groups) for (const figure of withheldIn(group, whole, smallestShown)) hidden.add(figure);
    // a total withheld in one split would be the sum of another
    for (const group of groups)
      if (hidden.has(whole) && !group.some((figure) => hidden.has(figure)))
        for (const figure of group) hidden.add(figure);
  }
  for (const linked of sameLinesOf(shown, measures, hidden)) hidden.add(linked);
  for (const sum of sumsLaidBare(shown, measures, hidden)) hidden.add(sum);
  const { issues: _, ...rest } = report;
  return {
    ...rest,
    figures: shown.map((figure) => outside(figure, hidden.has(figure), smallestShown)),
    withheld: hidden.size,
  };
}

/** The other figures over lines of a stratum whose lines are withheld somewhere: "8 of 12" would tell the 12. */
function sameLinesOf(
  figures: readonly Figure[],
  measures: readonly Measure[],
  hidden: ReadonlySet<Figure>,
): readonly Figure[] {
  const others = new Set(measures.flatMap(({ id, numerator }) => (numerator.count === "lines" ? [] : [id])));
  const place = ({ stratum }: Figure) => JSON.stringify([stratum?.by, stratum?.value]);
  const ofLines = figures.filter((one) => one.stratum && !others.has(one.measure) && isPeople(one));
  const places = new Set(ofLines.filter((one) => hidden.has(one)).map(place));
  return ofLines.filter((one) => places.has(place(one)));
}

/** All complications together less the kinds that are shown would give back the kind that is not. */
function sumsLaidBare(
  figures: readonly Figure[],
  measures: readonly Measure[],
  hidden: ReadonlySet<Figure>,
): readonly Figure[] {
  const events = new Map(
    measures.flatMap(({ id, numerator }) => (numerator.count === "events" ? [[id, numerator.event] as const] : [])),
  );
  const place = ({ stratum }: Figure) => `${stratum?.by ?? ""}|${stratum?.value ?? ""}`;
  const bare = new Set(figures.filter((one) => hidden.has(one) && events.has(one.measure)).map(place));
  return figures.filter((figure) => events.get(figure.measure) === "any" && bare.has(place(figure)));
}

const isShare = ({ interval, denominator }: Figure): boolean =>
  interval.name === "exact binomial" && denominator !== undefined;
const isPeople = ({ interval, form }: Figure): boolean =>
  interval.name !== "none: days of one line hang together" && form !== "nothing to count over";

/** A share has two cells, those with and those without: either may be small. */
const cellsOf = (figure: Figure): readonly number[] =>
  isShare(figure)
    ? [figure.numerator, (figure.denominator as number) - figure.numerator]
    : [Number.isInteger(figure.numerator) ? figure.numerator : 0];

const smallIn = (figure: Figure, smallestShown: number): boolean =>
  isPeople(figure) && cellsOf(figure).some((cell) => cell > 0 && cell < smallestShown);

function tablesOf(figures: readonly Figure[]): ReadonlyMap<Figure, readonly (readonly Figure[])[]> {
  const wholes = new Map(figures.filter(({ stratum }) => !stratum).map((figure) => [figure.measure, figure]));
  const groups = new Map<Figure, Map<string, Figure[]>>();
  for (const whole of wholes.values()) groups.set(whole, new Map());
  for (const figure of figures) {
    const whole = wholes.get(figure.measure);
    if (!figure.stratum || !whole) continue;
    const own = groups.get(whole) as Map<string, Figure[]>;
    own.set(figure.stratum.by, [...(own.get(figure.stratum.by) ?? []), figure]);
  }
  return new Map([...groups].map(([whole, own]) => [whole, [...own.values()]]));
}

function withheldIn(group: readonly Figure[], whole: Figure, smallestShown: number): readonly Figure[] {
  if (!isPeople(whole)) return [];
  const share = isShare(whole);
  const table = group.map((figure) => (share ? pairOf(figure) : cellsOf(figure)));
  const { withheld } = suppressSmallCells(table, { smallestShown, rowTotals: share, columnTotals: true });
  const rows = new Set(withheld.map(({ row }) => row));
  return [...group.filter((_, at) => rows.has(at)), ...(rows.has("total") ? [whole] : [])];
}

const pairOf = (figure: Figure): readonly number[] =>
  figure.denominator === undefined ? [0, 0] : [figure.numerator, figure.denominator - figure.numerator];

function outside(figure: Figure, isHidden: boolean, smallestShown: number): OutsideFigure {
  const { lines: _, provisional: __, used, given, ...facts } = figure;
  const tellsRows =
    !figure.stratum && !isHidden && [used, given - used].every((rows) => rows === 0 || rows >= smallestShown);
  const rest = { ...facts, used: tellsRows ? used : undefined, given: tellsRows ? given : undefined };
  if (!isHidden) return rest;
  const share = isShare(figure);
  return {
    ...rest,
    numerator: "withheld",
    denominator: share ? "withheld" : figure.denominator,
    value: undefined,
    interval: { ...figure.interval, limits: undefined },
    missing: undefined,
  };
}
