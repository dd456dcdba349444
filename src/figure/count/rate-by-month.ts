import type { CivilDate } from "../../core/calendar/index.ts";
import { countPlateWords, saySpan } from "../../language/index.ts";
import { element, plate, type Figure, type Ink } from "../plate/index.ts";
import { captionOf, captionRoom, frameOf, mostColumns, scaleOf, underColumn, xOf, yOf } from "./frame.ts";

/** One span of a rate: what was counted, over what, and the limits of chance; no value where there is nothing to count over. */
export interface RateMonth {
  readonly name: string;
  readonly events: number;
  readonly days: number;
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly provisional: boolean;
}

/** How many months a span of a rate has, the shortest first. */
const SPAN_MONTHS = { month: 1, quarter: 3, year: 12, "five years": 60 } as const;
type RateSpan = keyof typeof SPAN_MONTHS;
const SPANS = Object.keys(SPAN_MONTHS) as readonly RateSpan[];

/** The shortest span whose columns a plate of a width holds with their names; five years where not even these do. */
export function rateSpan(months: number, width: number): { readonly span: RateSpan; readonly months: number } {
  const most = mostColumns(width);
  // a period that begins within a span has one column more
  const fits = (span: RateSpan): boolean => Math.ceil(months / SPAN_MONTHS[span]) + (span === "month" ? 0 : 1) <= most;
  const span = SPANS.find(fits) ?? "five years";
  return { span, months: SPAN_MONTHS[span] };
}

/** A figure of one span, as far as a plate draws it. */
interface MonthNumbers {
  readonly from: CivilDate;
  readonly figure: {
    readonly numerator: number;
    readonly denominator: number | undefined;
    readonly value: number | undefined;
    readonly interval: { readonly limits: { readonly lower: number; readonly upper: number } | undefined };
  };
  readonly provisional: boolean;
}

/** The months of a figure, or its longer spans, as they are drawn. */
export const rateMonths = (months: readonly MonthNumbers[], span: RateSpan = "month"): readonly RateMonth[] =>
  months.map(({ from, figure: { numerator, denominator, value, interval }, provisional }) => ({
    name: saySpan(from, span),
    events: numerator,
    days: denominator ?? 0,
    perThousand: value,
    lower: interval.limits?.lower,
    upper: interval.limits?.upper,
    provisional,
  }));

/** A rate with its interval, span by span, what each is over standing under it. */
export function rateByMonth(input: {
  readonly id: string;
  readonly title: string;
  readonly clock: string;
  readonly span: RateSpan;
  readonly months: readonly RateMonth[];
  readonly width: number;
  readonly plot?: number;
  /** On paper: counts and days as two rows named once at the left, one caption under several plates. */
  readonly close?: boolean;
  readonly ink: Ink;
}): Figure {
  const { id, title, clock, span, months, width, plot = 200, close = false, ink } = input;
  const words = countPlateWords.rate(title, clock, span, months);
  const rates = months.flatMap(({ perThousand }) => (perThousand === undefined ? [] : [perThousand]));
  const uppers = months.flatMap(({ upper }) => (upper === undefined ? [] : [upper]));
  // a month of few days has limits far above every rate: they run off the scale, and the table has them
  const most = Math.max(2 * Math.max(0, ...rates), Math.min(...(uppers.length > 0 ? uppers : [1])) * 1.1);
  const frame = frameOf(ink, width, most, { plot, columns: months.length, close });
  const height = close ? frame.height - captionRoom(width) : frame.height;
  const marks = months.map((month, at) => {
    const { perThousand, lower, upper } = month;
    const middle = xOf(frame, at);
    const over = underColumn(frame, at, month.name, month.events, month.days);
    if (perThousand === undefined || lower === undefined || upper === undefined) return over;
    const [low, high] = [yOf(frame, lower), yOf(frame, upper)];
    const bar = { stroke: ink.soft, "stroke-width": 1.5, "stroke-dasharray": month.provisional ? "3 3" : undefined };
    const cap = (y: number) => element("line", { x1: middle - 5, x2: middle + 5, y1: y, y2: y, ...bar });
    return (
      element("line", { x1: middle, x2: middle, y1: low, y2: high, ...bar }) +
      cap(low) +
      (upper > frame.most ? "" : cap(high)) +
      element("circle", {
        cx: middle,
        cy: yOf(frame, perThousand),
        r: 5,
        fill: month.events === 0 ? ink.paper : ink.ink,
        stroke: ink.ink,
        "stroke-width": 1.5,
        "data-month": month.name,
        "data-events": month.events,
      }) +
      over
    );
  });
  const svg = plate(
    { id, kind: "count-plate", width, height, title, description: words.sentence },
    scaleOf(frame, words.unit, (value) => String(Number(value.toFixed(2)))),
    ...marks,
    close ? "" : captionOf(frame, words.under),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}
