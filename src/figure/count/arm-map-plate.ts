import { countPlateWords } from "../../language/index.ts";
import { element, lettered, plate, textures, type Figure, type Ink } from "../plate/index.ts";
import { captionOf, frameOf, scaleOf, yOf } from "./frame.ts";

/** One cell along the arm, 0 at the elbow and 1 at the armpit: a smoothed rate with its limits, or too few days to read. */
export interface ArmMapCell {
  readonly from: number;
  readonly to: number;
  readonly events: number;
  readonly lineDays: number;
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly grey: boolean;
}

const THIRDS = ["hatch", "", "stipple"] as const;
/** The strip, the two ends, and for each third its name, what was counted and over how many days. */
const UNDER = 104;

/** Where along the arm an event came, over the strip of the arm itself with its three thirds. */
export function armMapPlate(input: {
  readonly id: string;
  readonly title: string;
  readonly clock: string;
  readonly cells: readonly ArmMapCell[];
  readonly flat: boolean;
  readonly used: number;
  readonly given: number;
  readonly width: number;
  readonly ink: Ink;
}): Figure {
  const { id, title, cells, width, ink } = input;
  const words = countPlateWords.map(input);
  const read = cells.filter(({ grey, perThousand }) => !grey && perThousand !== undefined);
  const most = Math.max(0.1, ...read.map(({ upper }) => upper ?? 0)) * 1.1;
  const frame = frameOf(ink, width, most, { plot: 220, caption: words.under, under: UNDER });
  const x = (share: number) => frame.left + share * (frame.right - frame.left);
  const drawn = cells.map((cell) => {
    const { from, to, perThousand, lower, upper, grey } = cell;
    const [left, wide] = [x(from), x(to) - x(from)];
    if (grey || perThousand === undefined || lower === undefined || upper === undefined)
      return element("rect", {
        x: left,
        y: frame.top,
        width: wide,
        height: frame.bottom - frame.top,
        fill: ink.hair,
        opacity: 0.35,
        "data-grey": from,
      });
    const [low, high, middle] = [yOf(frame, lower), yOf(frame, upper), yOf(frame, perThousand)];
    return (
      element("rect", {
        x: left,
        y: high,
        width: wide,
        height: Math.max(0.5, low - high),
        fill: `url(#${id}-hatch)`,
        opacity: 0.4,
      }) +
      element("line", {
        x1: left,
        x2: left + wide,
        y1: middle,
        y2: middle,
        stroke: ink.ink,
        "stroke-width": 2.5,
        "data-cell": from,
      })
    );
  });
  const strip = THIRDS.map((texture, at) =>
    element("rect", {
      x: x(at / 3),
      y: frame.bottom + 4,
      width: x(1 / 3) - x(0),
      height: 14,
      fill: texture === "" ? "none" : `url(#${id}-${texture})`,
      stroke: ink.ink,
      "stroke-width": 1,
    }),
  );
  // each cell's own numbers are in the table: under the arm stand those of its thirds, in words that lie level
  const thirds = words.thirds.map((third, at) => {
    const own = cells.filter(({ from, to }) => Math.min(2, Math.floor(((from + to) / 2) * 3)) === at);
    const sum = (of: "events" | "lineDays") => own.reduce((all, cell) => all + cell[of], 0);
    const over = countPlateWords.over(sum("events"), sum("lineDays"));
    const middle = x((at + 0.5) / 3);
    return (
      lettered(ink, middle, frame.bottom + 54, third, { size: 13, face: "serif", italic: true, anchor: "middle" }) +
      lettered(ink, middle, frame.bottom + 74, over.events, {
        size: 16,
        weight: 700,
        anchor: "middle",
        part: "third",
      }) +
      lettered(ink, middle, frame.bottom + 91, over.in, { size: 12, anchor: "middle", colour: ink.soft })
    );
  });
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title, description: words.sentence },
    textures(id, ink),
    scaleOf(frame, words.unit, countPlateWords.tick),
    ...drawn,
    ...strip,
    lettered(ink, x(0), frame.bottom + 32, words.elbow, { size: 12, face: "serif", italic: true }),
    lettered(ink, x(1), frame.bottom + 32, words.armpit, { size: 12, face: "serif", italic: true, anchor: "end" }),
    ...thirds,
    captionOf(frame),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}
