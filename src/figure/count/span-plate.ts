import { spanWords } from "../../language/index.ts";
import { element, plate, type Figure, type Ink } from "../plate/index.ts";
import {
  captionOf,
  captionRoom,
  frameOf,
  levelLine,
  levelRoom,
  scaleOf,
  underColumns,
  xOf,
  yOf,
  type Frame,
} from "./frame.ts";

/** One span of a rate or a share: what was counted, over what, and its limits; no value where there is nothing to count over. */
export interface SpanValue {
  readonly name: string;
  readonly counted: number;
  readonly over: number;
  /** Per 1000 days, or a share of one. */
  readonly value: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly provisional: boolean;
}

export interface SpanPlate {
  readonly id: string;
  readonly title: string;
  /** What it is over, and so the scale: days of a clock by the thousand, or the lines of a share. */
  readonly kind: "rate" | "share";
  readonly overName: string;
  readonly each: "month" | "quarter" | "year" | "five years";
  readonly interval: { readonly name: string; readonly level: number };
  readonly spans: readonly SpanValue[];
  readonly whole: Omit<SpanValue, "name" | "provisional">;
  readonly width: number;
  readonly ink: Ink;
  readonly plot?: number;
  /** On paper: counts and days as two rows named once at the left, one caption under several plates. */
  readonly close?: boolean;
}

/** A figure as a plate draws it. */
export const spanValueOf = ({
  numerator,
  denominator,
  value,
  interval,
}: {
  readonly numerator: number;
  readonly denominator: number | undefined;
  readonly value: number | undefined;
  readonly interval: { readonly limits: { readonly lower: number; readonly upper: number } | undefined };
}): SpanPlate["whole"] => ({
  counted: numerator,
  over: denominator ?? 0,
  value,
  lower: interval.limits?.lower,
  upper: interval.limits?.upper,
});

/** A rate or a share with its interval, span by span, what each is over standing under it. */
export function spanPlate(input: SpanPlate): Figure {
  const { id, title, kind, spans, whole, width, ink, plot = 200, close = false } = input;
  const words = spanWords(input);
  const scaled = (value: number) => (kind === "share" ? 100 * value : value);
  const frame = frameOf(ink, width, kind === "share" ? 100 : mostOf(spans), {
    plot,
    close,
    right: levelRoom(width),
    caption: words.under,
    columns: spans.map(({ name, counted, over }) => ({ name, events: counted, days: over })),
  });
  const height = close ? frame.height - captionRoom(frame.caption) : frame.height;
  const level = whole.value === undefined ? undefined : yOf(frame, scaled(whole.value));
  const svg = plate(
    { id, kind: "count-plate", width, height, title, description: words.sentence },
    scaleOf(frame, words.unit, words.tick),
    level === undefined ? "" : levelLine(frame, level, words.whole),
    ...spans.map((span, at) => mark(frame, xOf(frame, at), span, scaled)),
    underColumns(
      frame,
      spans.map(({ name, counted, over }) => ({ name, events: counted, days: over })),
    ),
    close ? "" : captionOf(frame),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}

/** A span of few days has limits far above every rate: they run off the scale, and the table has them. */
function mostOf(spans: readonly SpanValue[]): number {
  const rates = spans.flatMap(({ value }) => value ?? []);
  const uppers = spans.flatMap(({ upper }) => upper ?? []);
  return Math.max(2 * Math.max(0, ...rates), Math.min(...(uppers.length > 0 ? uppers : [1])) * 1.1);
}

function mark(frame: Frame, middle: number, span: SpanValue, scaled: (value: number) => number): string {
  const { ink, wide } = frame;
  const { value, lower, upper } = span;
  if (value === undefined || lower === undefined || upper === undefined) return "";
  const [low, high] = [yOf(frame, scaled(lower)), yOf(frame, scaled(upper))];
  const bar = { stroke: ink.soft, "stroke-width": 1.5, "stroke-dasharray": span.provisional ? "3 3" : undefined };
  const half = Math.min(5, wide / 3);
  const cap = (y: number) => element("line", { x1: middle - half, x2: middle + half, y1: y, y2: y, ...bar });
  return (
    element("line", {
      x1: middle,
      x2: middle,
      y1: low,
      y2: high,
      ...bar,
      "data-lower": lower,
      "data-upper": upper,
    }) +
    cap(low) +
    (scaled(upper) > frame.most ? "" : cap(high)) +
    element("circle", {
      cx: middle,
      cy: yOf(frame, scaled(value)),
      r: Math.min(5, Math.max(2.5, wide / 3)),
      fill: span.counted === 0 ? ink.paper : ink.ink,
      stroke: ink.ink,
      "stroke-width": 1.5,
      "data-span": span.name,
      "data-counted": span.counted,
      "data-over": span.over,
    })
  );
}
