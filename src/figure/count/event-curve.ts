import { countPlateWords } from "../../language/index.ts";
import { element, lettered, plate, textures, widthOf, type Figure, type Ink } from "../plate/index.ts";
import { DAY_AXIS_ROOM, dayAxis } from "./day-axis.ts";
import { captionOf, frameOf, scaleOf, yOf } from "./frame.ts";

/** A curve at a day: chance of the event while other ends compete, its limits, and another end first. */
export interface CurveDay {
  readonly day: number;
  readonly atRisk: number;
  readonly grey: boolean;
  readonly incidence: number;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly otherEnd: number;
}

const PERCENT = 100;

/** Time to the event from below, time to any other end from above: what is between them is still in. */
export function eventCurve(input: {
  readonly id: string;
  readonly title: string;
  readonly lines: number;
  readonly events: number;
  readonly otherEnds: number;
  readonly days: readonly CurveDay[];
  readonly width: number;
  readonly ink: Ink;
}): Figure {
  const { id, title, days, width, ink } = input;
  const words = countPlateWords.curve(input);
  const frame = frameOf(ink, width, PERCENT, { plot: 240, caption: words.under, under: DAY_AXIS_ROOM });
  const last = days.at(-1)?.day ?? 1;
  const x = (day: number) => frame.left + (day / last) * (frame.right - frame.left);
  const y = (share: number) => yOf(frame, share * PERCENT);
  const read = days.filter(({ grey }) => !grey);
  const line = (some: readonly CurveDay[], of: (day: CurveDay) => number) =>
    some.map((one, at) => `${at === 0 ? "M" : "L"}${x(one.day).toFixed(1)} ${y(of(one)).toFixed(1)}`).join("");
  const banded = read.filter(({ lower, upper }) => lower !== undefined && upper !== undefined);
  const band =
    banded.length > 1
      ? `${line(banded, ({ upper }) => upper ?? 0)}${line([...banded].reverse(), ({ lower }) => lower ?? 0).replace("M", "L")}Z`
      : "";
  const greyFrom = days.findIndex(({ grey }) => grey);
  const tail = greyFrom > 0 ? days.slice(greyFrom - 1) : greyFrom === 0 ? days : [];
  const stroke = (d: string, extra: Readonly<Record<string, string | number>>) =>
    d === "" ? "" : element("path", { d, fill: "none", stroke: ink.ink, ...extra });
  const marked = days
    .filter(({ day }) => countPlateWords.curveDays.includes(day))
    .map(({ day, atRisk }) => ({ day, lines: countPlateWords.atRisk(atRisk) }));
  // on a small screen the name of the upper curve stands in two lines, clear of where the curve begins
  const otherName =
    widthOf(words.other, { size: 13 }) > 0.7 * (frame.right - frame.left) ? words.other.split(": ") : [words.other];
  const end = read.at(-1) ?? days.at(-1);
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title, description: words.sentence },
    textures(id, ink),
    scaleOf(frame, words.unit, (value) => `${value}\u202f%`),
    band === "" ? "" : element("path", { d: band, fill: `url(#${id}-hatch)`, opacity: 0.45 }),
    stroke(
      line(read, ({ incidence }) => incidence),
      { "stroke-width": 2.5, "data-curve": "event" },
    ),
    stroke(
      line(read, ({ otherEnd }) => 1 - otherEnd),
      { "stroke-width": 1.5, "stroke-dasharray": "6 4", "data-curve": "other end" },
    ),
    stroke(
      line(tail, ({ incidence }) => incidence),
      { "stroke-width": 1, "stroke-dasharray": "2 4" },
    ),
    stroke(
      line(tail, ({ otherEnd }) => 1 - otherEnd),
      { "stroke-width": 1, "stroke-dasharray": "2 4" },
    ),
    end
      ? lettered(
          ink,
          Math.min(x(end.day), frame.right) - 6,
          // under the curve where there is room, for the other curve comes down from above
          frame.bottom - y(end.incidence) > 24 ? y(end.incidence) + 17 : y(end.incidence) - 8,
          words.event,
          { size: 13, anchor: "end", weight: 700, rim: 4 },
        ) +
          otherName
            .map((part, at) =>
              lettered(ink, frame.right, y(1) + 18 + 17 * at, part, {
                size: 13,
                face: "serif",
                italic: true,
                rim: 4,
                anchor: "end",
              }),
            )
            .join("")
      : "",
    dayAxis(frame, marked, x, last),
    captionOf(frame),
  );
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: words.rows } };
}
