import { countPlateWords } from "../../language/index.ts";
import { element, lettered, overlaps, plate, widthOf, type Box, type Figure, type Ink } from "../plate/index.ts";
import { captionOf, frameOf, levelLine, levelRoom, scaleOf, underColumns, xOf, yOf, type Frame } from "./frame.ts";

/** One month or quarter of a chart; limits per 1000 days, undefined without days or base. */
export interface ChartSpan {
  readonly name: string;
  /** Its start as a share of the way through the period. */
  readonly share: number;
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
  /** Room beside the spans for the name of the base. */
  readonly right?: number;
  /** In the place of the chart's own caption. */
  readonly caption?: string;
}

/** The least a span is wide; and the room beside the spans, for the scale and the name of the base. */
const NARROWEST = 7;
const LEFT = 52;
const BASE_ROOM = 76;

/** A rate against its base with its limits as steps, and each event as a stroke on a line of days. */
export function controlChart(input: ControlChart): Figure {
  const { id, title, width } = input;
  const shown = newest(input);
  const { frame, words, marks } = chartMarks({ ...shown, told: input.spans, right: levelRoom(width) });
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title, description: words.sentence },
    ...marks,
    captionOf(frame),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}

/** The last spans, as many as can be told apart at this width; the sentence and the table keep all. */
function newest(input: ControlChart): ControlChart {
  const { spans, width, eventShares } = input;
  const most = Math.max(1, Math.floor((width - LEFT - levelRoom(width)) / NARROWEST));
  const [first] = spans.slice(-most);
  if (first === undefined || spans.length <= most) return input;
  return {
    ...input,
    spans: spans.slice(-most),
    eventShares: eventShares.flatMap((share) =>
      share < first.share ? [] : [(share - first.share) / (1 - first.share)],
    ),
    caption: countPlateWords.lastSpans(most, spans.length),
  };
}

/** The chart without its caption, for a plate that goes on below it. */
export function chartMarks(input: Omit<ControlChart, "id"> & { readonly told?: readonly ChartSpan[] }): {
  readonly frame: Frame;
  readonly words: ReturnType<typeof countPlateWords.chart>;
  readonly marks: readonly string[];
} {
  const { title, clock, spans, basePerThousand, width, ink, plot = 200 } = input;
  const words = countPlateWords.chart(title, clock, basePerThousand, input.told ?? spans);
  const values = spans.flatMap(({ perThousand, upper }) => [perThousand, upper].filter((value) => value !== undefined));
  const most = Math.max(basePerThousand, 0.1, ...values) * 1.15;
  const frame = frameOf(ink, width, most, {
    plot,
    columns: spans,
    caption: input.caption ?? words.under,
    beside: 20,
    right: input.right ?? BASE_ROOM,
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
  const radius = Math.min(4.5, Math.max(2, wide / 3));
  const looks = lookPlaces(
    spans.map(({ perThousand, signal }, at) =>
      signal && perThousand !== undefined ? { x: x(at), y: yOf(frame, perThousand) } : undefined,
    ),
  );
  const marks = spans.map((span, at) => {
    const { perThousand, upper, lower, signal } = span;
    const dot =
      perThousand === undefined
        ? ""
        : element("circle", {
            cx: x(at),
            cy: yOf(frame, perThousand),
            r: radius,
            fill: ink.ink,
            "data-span": span.name,
          }) +
          (signal
            ? element("circle", {
                cx: x(at),
                cy: yOf(frame, perThousand),
                r: radius * 2,
                fill: "none",
                stroke: ink.act,
                "stroke-width": 2,
              }) +
              (looks.has(at)
                ? lettered(ink, x(at), yOf(frame, perThousand) - 14, countPlateWords.signal, {
                    size: LOOK,
                    anchor: "middle",
                    weight: 700,
                    colour: ink.act,
                    rim: 3,
                  })
                : "")
            : "");
    return step(upper, at, "5 4") + (lower !== undefined && lower > 0 ? step(lower, at, "5 4") : "") + dot;
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
      // so many that they would run together are drawn finer
      "stroke-width": input.eventShares.length > (frame.right - frame.left) / 3 ? 0.5 : 1.5,
      "data-event-share": share,
    }),
  );
  return {
    frame,
    words,
    marks: [
      scaleOf(frame, words.unit, countPlateWords.tick),
      levelLine(frame, base, words.base),
      path === "" ? "" : element("path", { d: `M${path}`, fill: "none", stroke: ink.soft, "stroke-width": 1 }),
      ...marks,
      underColumns(frame, spans),
      ...strokes,
    ],
  };
}

const LOOK = 13;

/** Which of the signals carry their word: one whose word would stand on another's keeps its ring alone. */
function lookPlaces(signals: readonly ({ readonly x: number; readonly y: number } | undefined)[]): ReadonlySet<number> {
  const taken: Box[] = [];
  const wide = widthOf(countPlateWords.signal, { size: LOOK, weight: 700 });
  return new Set(
    signals.flatMap((place, at) => {
      if (!place) return [];
      const box: Box = { x: place.x - wide / 2, y: place.y - 14 - LOOK, width: wide, height: LOOK + 2 };
      if (taken.some((other) => overlaps(box, other))) return [];
      taken.push(box);
      return [at];
    }),
  );
}
