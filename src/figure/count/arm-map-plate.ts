import { countPlateWords } from "../../language/index.ts";
import { element, lettered, plate, textures, type Figure, type Ink } from "../plate/index.ts";
import { captionOf, frameOf, scaleOf, underColumn, yOf } from "./frame.ts";

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
  const frame = frameOf(ink, width, most, { plot: 220, columns: cells.length, beside: 36, named: false });
  const x = (share: number) => frame.left + share * (frame.right - frame.left);
  const drawn = cells.map((cell, at) => {
    const { from, to, perThousand, lower, upper, grey } = cell;
    const [left, wide] = [x(from), x(to) - x(from)];
    const over = underColumn(frame, at, "", cell.events, cell.lineDays);
    if (grey || perThousand === undefined || lower === undefined || upper === undefined)
      return (
        element("rect", {
          x: left,
          y: frame.top,
          width: wide,
          height: frame.bottom - frame.top,
          fill: ink.hair,
          opacity: 0.35,
          "data-grey": from,
        }) + over
      );
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
      }) +
      over
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
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title, description: words.sentence },
    textures(id, ink),
    scaleOf(frame, words.unit, (value) => String(Number(value.toFixed(2)))),
    ...drawn,
    ...strip,
    lettered(ink, x(0), frame.bottom + 32, words.elbow, { size: 12, face: "serif", italic: true }),
    lettered(ink, x(1), frame.bottom + 32, words.armpit, { size: 12, face: "serif", italic: true, anchor: "end" }),
    captionOf(frame, words.under),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}
