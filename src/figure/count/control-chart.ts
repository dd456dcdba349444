import { countPlateWords } from "../../language/index.ts";
import { element, lettered, plate, type Figure, type Ink } from "../plate/index.ts";
import { captionOf, frameOf, scaleOf, underColumn, xOf, yOf, type Frame } from "./frame.ts";

/** One month or quarter of a chart; limits per 1000 days, undefined without days or base. */
export interface ChartSpan {
  readonly name: string;
  readonly events: number;
  readonly days: number;
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly signal: "high" | "low" | undefined;
}

export interface ControlChart {
  readonly id: string;
  readonly title: string;
  readonly clock: string;
  readonly basePerThousand: number;
  readonly spans: readonly ChartSpan[];
  /** Each event as a share of the way through the period. */
  readonly eventShares: readonly number[];
  readonly width: number;
  readonly plot?: number;
  /** On paper: counts and days as two rows named once at the left. */
  readonly close?: boolean;
  /** Room over the chart for what is marked there. */
  readonly head?: number;
  readonly ink: Ink;
}

/** A rate against its base with its limits as steps, and each event as a stroke on a line of days. */
export function controlChart(input: ControlChart): Figure {
  const { id, title, width } = input;
  const { frame, words, marks } = chartMarks(input);
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title, description: words.sentence },
    ...marks,
    captionOf(frame, words.under),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}

/** The chart without its caption, for a plate that goes on below it. */
export function chartMarks(input: Omit<ControlChart, "id">): {
  readonly frame: Frame;
  readonly words: ReturnType<typeof countPlateWords.chart>;
  readonly marks: readonly string[];
} {
  const { title, clock, spans, basePerThousand, width, ink, plot = 200 } = input;
  const words = countPlateWords.chart(title, clock, basePerThousand, spans);
  const values = spans.flatMap(({ perThousand, upper }) => [perThousand, upper].filter((value) => value !== undefined));
  const most = Math.max(basePerThousand, 0.1, ...values) * 1.15;
  const frame = frameOf(ink, width, most, {
    plot,
    columns: spans.length,
    beside: 20,
    right: 76,
    close: input.close ?? false,
    head: input.head ?? 0,
  });
  const x = (at: number) => xOf(frame, at);
  const { wide } = frame;
  const step = (value: number | undefined, at: number, dash: string) =>
    value === undefined
      ? ""
      : element("line", {
          x1: x(at) - wide / 2,
          x2: x(at) + wide / 2,
          y1: yOf(frame, value),
          y2: yOf(frame, value),
          stroke: ink.ink,
          "stroke-width": 1,
          "stroke-dasharray": dash,
        });
  const path = spans
    .flatMap(({ perThousand }, at) =>
      perThousand === undefined ? [] : [`${x(at).toFixed(1)} ${yOf(frame, perThousand).toFixed(1)}`],
    )
    .join("L");
  const marks = spans.map((span, at) => {
    const { perThousand, upper, lower, signal } = span;
    const dot =
      perThousand === undefined
        ? ""
        : element("circle", { cx: x(at), cy: yOf(frame, perThousand), r: 4.5, fill: ink.ink, "data-span": span.name }) +
          (signal
            ? element("circle", {
                cx: x(at),
                cy: yOf(frame, perThousand),
                r: 9,
                fill: "none",
                stroke: ink.act,
                "stroke-width": 2,
              }) +
              lettered(ink, x(at), yOf(frame, perThousand) - 14, countPlateWords.signal, {
                size: 13,
                anchor: "middle",
                weight: 700,
                colour: ink.act,
              })
            : "");
    return (
      step(upper, at, "5 4") +
      (lower !== undefined && lower > 0 ? step(lower, at, "5 4") : "") +
      dot +
      underColumn(frame, at, span.name, span.events, span.days)
    );
  });
  const base = yOf(frame, basePerThousand);
  const day = (share: number) => frame.left + share * (frame.right - frame.left);
  const strokes = input.eventShares.map((share) =>
    element("line", {
      x1: day(share),
      x2: day(share),
      y1: frame.bottom + 6,
      y2: frame.bottom + 18,
      stroke: ink.ink,
      "stroke-width": 1.5,
      "data-event-share": share,
    }),
  );
  return {
    frame,
    words,
    marks: [
      scaleOf(frame, words.unit, (value) => String(Number(value.toFixed(2)))),
      element("line", { x1: frame.left, x2: frame.right, y1: base, y2: base, stroke: ink.ink, "stroke-width": 1 }),
      lettered(ink, frame.right + 6, base + 4, words.base, { size: 12, face: "serif", italic: true }),
      path === "" ? "" : element("path", { d: `M${path}`, fill: "none", stroke: ink.soft, "stroke-width": 1 }),
      ...marks,
      ...strokes,
    ],
  };
}
