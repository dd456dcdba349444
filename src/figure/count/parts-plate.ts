import { partsWords } from "../../language/index.ts";
import { element, escaped, lettered, plate, widthOf, withinWidth, type Figure } from "../plate/index.ts";
import { ticksTo } from "./frame.ts";
import { lyingInterval } from "./lying-interval.ts";
import type { SpanPlate } from "./span-plate.ts";

/** A part of a measure: a ward, a number of lumens. */
export type PartValue = SpanPlate["whole"] & { readonly name: string };

/** A plate as narrow as this sets each name over its stroke. */
const NARROW = 560;
const ROW = { level: 26, over: 42 } as const;
const NAMES = 0.34;
const SMALL = 12;
const TOP = 10;
const FOOT = 44;
const OVER = 2.4;

/** The parts of a measure under each other with their intervals, in their own order and so in no order of merit. */
export function partsPlate(
  input: Pick<SpanPlate, "id" | "title" | "kind" | "overName" | "interval" | "whole" | "width" | "ink"> & {
    readonly parts: readonly PartValue[];
  },
): Figure {
  const { id, title, kind, parts, whole, width, ink } = input;
  const words = partsWords(input);
  const over = width < NARROW;
  const widest = Math.max(0, ...parts.map(({ name }) => widthOf(name, { size: 13 })));
  const left = over ? 14 : Math.min(NAMES * width, widest + 24);
  const overs = parts.map((part) => words.over(part.counted, part.over));
  const right = width - 12 - Math.max(0, ...overs.map((text) => widthOf(text, { size: SMALL })));
  const values = parts.flatMap(({ value }) => value ?? []);
  const uppers = parts.flatMap(({ upper }) => upper ?? []);
  const most =
    kind === "share"
      ? 1
      : Math.max(0.1, Math.min(Math.max(0, ...uppers), OVER * Math.max(0, ...values) || Infinity)) * 1.05;
  const x = (value: number) => left + (Math.min(value, most) / most) * (right - 8 - left);
  const row = over ? ROW.over : ROW.level;
  const bottom = TOP + row * parts.length;
  const scale = ticksTo(kind === "share" ? 100 * most : most).map((tick) => {
    const at = x(kind === "share" ? tick / 100 : tick);
    // on a narrow plate the lines of the scale stop for the names
    const spans = over
      ? parts.map((_, k) => [TOP + row * k + 20, TOP + row * (k + 1) - 2] as const)
      : [[TOP, bottom] as const];
    const colour = tick === 0 ? ink.ink : ink.hair;
    return (
      spans.map(([y1, y2]) => element("line", { x1: at, x2: at, y1, y2, stroke: colour })).join("") +
      lettered(ink, at, bottom + 16, words.tick(tick), { size: SMALL, anchor: "middle", colour: ink.soft })
    );
  });
  const all =
    whole.value === undefined
      ? ""
      : element("line", {
          x1: x(whole.value),
          x2: x(whole.value),
          y1: TOP,
          y2: bottom,
          stroke: ink.soft,
          "stroke-width": 1.2,
          "stroke-dasharray": "6 4",
        });
  const rows = parts.map((part, at) => {
    const y = TOP + row * at + (over ? 30 : row / 2);
    const { name, value, lower, upper } = part;
    const room = over ? width - 8 : left - 16;
    const shown = withinWidth(name, room, { size: 13 });
    const whole = shown === name ? "" : `<title>${escaped(name)}</title>`;
    const named = element(
      "g",
      {},
      whole + lettered(ink, 0, over ? y - 14 : y + 4, shown, { size: 13, rim: over ? 4 : 0, part: "name" }),
    );
    const counted = lettered(ink, width, y + 4, overs[at] as string, { size: SMALL, anchor: "end", colour: ink.soft });
    if (value === undefined || lower === undefined || upper === undefined) return named + counted;
    return (
      named + counted + lyingInterval(ink, { y, x, most, value, lower, upper, open: part.counted === 0, part: name })
    );
  });
  const svg = plate(
    { id, kind: "count-plate", width, height: bottom + FOOT, title, description: words.sentence },
    ...scale,
    all,
    ...rows,
    lettered(ink, 0, bottom + FOOT - 6, withinWidth(words.under, width, { size: SMALL }), {
      size: SMALL,
      face: "serif",
      italic: true,
      colour: ink.soft,
    }),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}
