import { thenAndNowWords } from "../../language/index.ts";
import { element, lettered, plate, linesWithin, widthOf, type Figure, type Ink } from "../plate/index.ts";
import { ticksTo } from "./frame.ts";
import { lyingInterval } from "./lying-interval.ts";

/** A rate and its limits per 1000 days; no value where there is nothing to count over. */
export interface TimedRate {
  readonly events: number;
  readonly days: number;
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

export interface ThenAndNow {
  readonly name: string;
  readonly now: TimedRate;
  readonly before: TimedRate;
  readonly direction: "higher" | "lower" | "cannot tell";
}

const TOP = 4;
/** A rate takes its name, a line for each time, and air. */
const NAME = { size: 14, line: 18 } as const;
const TIMES = 58;
const LEFT = 56;
const FOOT = 42;
const SMALL = 12;
/** Over every rate: a limit beyond runs off the scale, and the table has it. */
const OVER = 2.4;

/** The few compared rates, each now over before on one scale; the one that stands apart carries the accent. */
export function thenAndNowPlate(input: {
  readonly id: string;
  readonly sentence: string;
  readonly level: number;
  readonly rates: readonly ThenAndNow[];
  readonly width: number;
  readonly ink: Ink;
}): Figure {
  const { id, sentence, rates, width, ink } = input;
  const words = thenAndNowWords(input);
  const both = rates.flatMap(({ now, before }) => [now, before]);
  const right =
    width - 8 - Math.max(...both.map(({ events, days }) => widthOf(words.over(events, days), { size: SMALL })));
  const values = both.flatMap(({ perThousand }) => perThousand ?? []);
  const uppers = both.flatMap(({ upper }) => upper ?? []);
  const most = Math.max(0.1, Math.min(Math.max(0, ...uppers), OVER * Math.max(...values, 0) || Infinity)) * 1.05;
  const x = (value: number) => LEFT + (Math.min(value, most) / most) * (right - 12 - LEFT);
  const blocks = blocksOf(rates, width, words.directions);
  const bottom = blocks.at(-1)?.to ?? TOP;
  const ticks = ticksTo(most);
  const scale = ticks.map((value) =>
    lettered(ink, x(value), bottom + 16, words.tick(value), {
      size: SMALL,
      anchor: "middle",
      colour: ink.soft,
    }),
  );
  // the lines of the scale stop for the names
  const rules = (from: number, to: number) =>
    ticks.map((value) =>
      element("line", {
        x1: x(value),
        x2: x(value),
        y1: from,
        y2: to,
        stroke: value === 0 ? ink.ink : ink.hair,
        "stroke-width": 1,
      }),
    );
  const timed = (rate: TimedRate, when: "now" | "before", y: number, apart: boolean): string => {
    const colour = when === "now" && apart ? ink.act : when === "now" ? ink.ink : ink.soft;
    const said = { size: SMALL, colour: when === "now" ? ink.ink : ink.soft } as const;
    const { perThousand, lower, upper } = rate;
    const beside =
      lettered(ink, LEFT - 8, y + 4, words[when], { ...said, anchor: "end" }) +
      lettered(ink, width, y + 4, words.over(rate.events, rate.days), { ...said, anchor: "end" });
    if (perThousand === undefined || lower === undefined || upper === undefined) return beside;
    const told = { y, x, most, value: perThousand, lower, upper, colour, part: when };
    return beside + lyingInterval(ink, { ...told, open: when === "before" });
  };
  const rows = blocks.map(({ rate: { now, before }, name, word, from, marks, to }) => [
    from === TOP ? "" : element("line", { x1: 0, x2: width, y1: from - 2, y2: from - 2, stroke: ink.hair }),
    ...rules(marks - 2, to - 8),
    ...name.map((line, at) =>
      lettered(ink, 0, from + 15 + NAME.line * at, line, { size: NAME.size, face: "serif", italic: true }),
    ),
    word === "" ? "" : lettered(ink, width, from + 15, word, { size: 13, weight: 700, anchor: "end", colour: ink.act }),
    timed(now, "now", marks + 12, word !== ""),
    timed(before, "before", marks + 34, word !== ""),
  ]);
  const svg = plate(
    { id, kind: "count-plate", width, height: bottom + FOOT, title: words.title, description: sentence },
    ...scale,
    ...rows.flat(),
    lettered(ink, 0, bottom + FOOT - 6, words.under, {
      size: SMALL,
      face: "serif",
      italic: true,
      colour: ink.soft,
    }),
  );
  return { svg, sentence, table: { columns: words.columns, rows: words.rows } };
}

/** Where each rate stands under the one before, its name in as many lines as it needs. */
function blocksOf(
  rates: readonly ThenAndNow[],
  width: number,
  directions: Readonly<Record<"higher" | "lower", string>>,
) {
  let from = TOP;
  return rates.map((rate) => {
    const word = rate.direction === "cannot tell" ? "" : directions[rate.direction];
    const room = width - (word === "" ? 0 : widthOf(word, { size: 13, weight: 700 }) + 12);
    const name = linesWithin(rate.name, room, { size: NAME.size });
    const marks = from + 6 + NAME.line * name.length;
    const block = { rate, name, word, from, marks, to: marks + TIMES };
    from = block.to;
    return block;
  });
}
