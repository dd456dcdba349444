import { timePlateWords } from "../../language/index.ts";
import { element, lettered, plate, polyline, px, type Figure, type Ink, type Point } from "../plate/index.ts";
import { chartMarks, type ControlChart } from "./control-chart.ts";
import { captionOf, captionRoom, type Frame } from "./frame.ts";

interface SumPoint {
  /** End of its day, as a share of the way through the period. */
  readonly share: number;
  readonly sum: number;
  readonly signal: boolean;
  readonly provisional: boolean;
}

interface ChangeMark {
  readonly number: number;
  readonly share: number;
  readonly words: string;
}

/** Under the chart: a little air, and the sum at a fixed share of the chart's own height. */
const AIR = 16;
const FOOT = 6;
/** How far the strokes of the events reach below the chart. */
const STROKES = 20;
const SUM_SHARE = 0.6;
/** Marks of changes that fall close together are set side by side. */
const MARK = { size: 7.5, beside: 18, above: 28, room: 20 } as const;
const HEAD = 1.2;

/**
 * A rate against its base, and under it on the same days the sum that keeps watch, with the changes of practice running
 * through both as numbered marks. Where no sum is kept the chart stands alone.
 */
export function timePlate(
  input: ControlChart & {
    readonly sum: { readonly decision: number; readonly points: readonly SumPoint[] } | undefined;
    readonly changes: readonly ChangeMark[];
    /** End of each span, as a share of the way through the period. */
    readonly spanEnds: readonly number[];
    /** False where one caption stands under several plates. */
    readonly captioned?: boolean;
  },
): Figure {
  const { id, title, clock, width, sum, changes, plot = 200 } = input;
  // the numbers of the changes stand over the unit of the scale and over a point's word
  const { frame, words, marks } = chartMarks({
    ...input,
    head: changes.length > 0 ? MARK.room : 0,
    caption: timePlateWords.under(clock),
  });
  const captioned = input.captioned ?? true;
  const under = frame.height - captionRoom(frame.caption);
  const top = under + AIR;
  const bottom = sum ? top + Math.round(plot * SUM_SHARE) : under;
  const whole: Frame = { ...frame, height: bottom + (captioned ? captionRoom(frame.caption) : FOOT) };
  const signals = sum?.points.filter(({ signal }) => signal) ?? [];
  const sentence =
    timePlateWords.sentence(
      words.sentence,
      sum && { signals: signals.length, last: sum.points.at(-1)?.sum ?? 0, decision: sum.decision },
    ) + changes.map((change) => timePlateWords.change(change.number, change.words)).join("");
  const svg = plate(
    { id, kind: "count-plate", width, height: whole.height, title, description: sentence },
    ...changes.map((change) => changeLine(frame, change, frame.top - MARK.above + MARK.size, frame.bottom + STROKES)),
    // the line stops for the counts that stand between, so that no digit is crossed
    ...(sum ? changes.map((change) => changeLine(frame, change, top - STROKES / 2, bottom)) : []),
    ...marks,
    sum ? sumPanel(frame, sum, top, bottom) : "",
    changeHeads(frame, changes),
    captioned ? captionOf(whole) : "",
  );
  const rows = words.rows.map((row, at) => {
    const [from, to] = [input.spanEnds[at - 1] ?? 0, input.spanEnds[at] ?? 1];
    const inside = (share: number): boolean => share > from + 1e-9 && share <= to + 1e-9;
    return [
      ...row,
      ...timePlateWords.row(
        sum?.points.findLast(({ share }) => inside(share))?.sum,
        signals.filter(({ share }) => inside(share)).length,
        changes.filter(({ share }) => share >= from - 1e-9 && share < to - 1e-9).map(({ number }) => number),
      ),
    ];
  });
  return { svg, sentence, table: { columns: [...words.columns, ...timePlateWords.columns], rows } };
}

const dayX = ({ left, right }: Frame, share: number): number => left + share * (right - left);

/** The path in pieces: it falls to zero after each signal, and is dotted where late entries may still lift it. */
function sumPanel(
  frame: Frame,
  { decision, points }: { readonly decision: number; readonly points: readonly SumPoint[] },
  top: number,
  bottom: number,
): string {
  const { ink, left, right } = frame;
  const most = Math.max(decision * HEAD, ...points.map(({ sum }) => sum));
  const y = (sum: number): number => bottom - (sum / most) * (bottom - top);
  const rule = (at: number, dash: string | undefined, colour: string) =>
    element("line", {
      x1: left,
      x2: right,
      y1: y(at),
      y2: y(at),
      stroke: colour,
      "stroke-width": 1,
      "stroke-dasharray": dash,
    });
  const pieces: { readonly provisional: boolean; readonly path: Point[] }[] = [];
  let before: Point | undefined = points[0] && { x: dayX(frame, points[0].share), y: y(0) };
  for (const { share, sum, signal, provisional } of points) {
    const here: Point = { x: dayX(frame, share), y: y(sum) };
    const last = pieces.at(-1);
    if (last && last.provisional === provisional && last.path.at(-1) === before) last.path.push(here);
    else pieces.push({ provisional, path: before ? [before, here] : [here] });
    before = signal ? { x: here.x, y: y(0) } : here;
  }
  return [
    rule(0, undefined, ink.ink),
    rule(decision, "5 4", ink.ink),
    lettered(ink, left - 8, y(0) + 4, "0", { size: 13, anchor: "end", colour: ink.soft }),
    lettered(ink, left - 8, (top + bottom) / 2 + 2, timePlateWords.sumUnit, {
      size: 13,
      face: "serif",
      italic: true,
      anchor: "end",
      colour: ink.soft,
    }),
    lettered(ink, right + 6, y(decision) + 4, timePlateWords.decision(decision), {
      size: 12,
      face: "serif",
      italic: true,
    }),
    ...pieces.map(({ provisional, path }) =>
      element("path", {
        d: polyline(path),
        fill: "none",
        stroke: ink.ink,
        "stroke-width": 1.2,
        "stroke-linejoin": "round",
        "stroke-dasharray": provisional ? "1.5 2.5" : undefined,
      }),
    ),
    ...points.filter(({ signal }) => signal).map(({ share, sum }) => signalMark(ink, dayX(frame, share), y(sum))),
  ].join("");
}

const signalMark = (ink: Ink, x: number, y: number): string =>
  element("circle", { cx: x, cy: y, r: 3.5, fill: ink.act, "data-sum-signal": px(x) }) +
  lettered(ink, x - 7, y + 1, timePlateWords.signal, {
    size: 13,
    anchor: "end",
    weight: 700,
    colour: ink.act,
    rim: 3,
  });

const changeLine = (frame: Frame, { share }: ChangeMark, y1: number, y2: number): string =>
  element("line", {
    x1: dayX(frame, share),
    x2: dayX(frame, share),
    y1,
    y2,
    stroke: frame.ink.soft,
    "stroke-width": 1.2,
    "stroke-dasharray": "1 3",
  });

/** The numbers over the lines, in rings with the paper's own ground, moved aside where two would touch. */
function changeHeads(frame: Frame, changes: readonly ChangeMark[]): string {
  const { ink, top } = frame;
  let free = -Infinity;
  return changes
    .map((change) => {
      const foot = dayX(frame, change.share);
      const x = Math.max(foot, free + MARK.beside);
      free = x;
      const y = top - MARK.above;
      return (
        (x > foot
          ? element("line", { x1: foot, x2: x, y1: y + MARK.size + 2, y2: y, stroke: ink.soft, "stroke-width": 1 })
          : "") +
        element("circle", {
          cx: x,
          cy: y,
          r: MARK.size,
          fill: ink.paper,
          stroke: ink.ink,
          "stroke-width": 1,
          "data-change": change.number,
        }) +
        lettered(ink, x, y + 4, String(change.number), { size: 12, anchor: "middle", weight: 700 })
      );
    })
    .join("");
}
