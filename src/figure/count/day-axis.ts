import { element, lettered, widthOf } from "../plate/index.ts";
import type { Frame } from "./frame.ts";

const NAME = 13;
const COUNT = 12;
const BETWEEN = 8;
/** Room that the two rows take under the axis. */
export const DAY_AXIS_ROOM = 48;

/** Days under the axis and the lines followed on each; a day whose numbers would touch another's is told by the table. */
export function dayAxis(
  frame: Frame,
  days: readonly { readonly day: number; readonly lines: string }[],
  x: (day: number) => number,
  last: number,
): string {
  const { ink, bottom } = frame;
  const spot = ({ day, lines }: (typeof days)[number]) => {
    const wide = Math.max(widthOf(String(day), { size: NAME }), widthOf(lines, { size: COUNT }));
    const anchor = day === 0 ? "start" : day === last ? "end" : "middle";
    const from = { start: x(day), middle: x(day) - wide / 2, end: x(day) - wide }[anchor];
    return { day, lines, anchor, from, to: from + wide } as const;
  };
  const spots = days.filter(({ day }) => day <= last).map(spot);
  // the two ends come first: a day between them gives way
  const ends = spots.filter(({ day }) => day === 0 || day === last);
  const kept: (typeof spots)[number][] = ends.length === 2 && touches(ends[0], ends[1]) ? ends.slice(0, 1) : ends;
  for (const one of spots) if (!kept.some((other) => other === one || touches(one, other))) kept.push(one);
  return kept
    .map(
      ({ day, lines, anchor }) =>
        element("line", { x1: x(day), x2: x(day), y1: bottom, y2: bottom + 5, stroke: ink.ink }) +
        lettered(ink, x(day), bottom + 20, String(day), { size: NAME, anchor, part: "day" }) +
        lettered(ink, x(day), bottom + 40, lines, { size: COUNT, anchor, colour: ink.soft, part: "lines" }),
    )
    .join("");
}

const touches = (
  a: { readonly from: number; readonly to: number } | undefined,
  b: { readonly from: number; readonly to: number } | undefined,
): boolean => a !== undefined && b !== undefined && a.from < b.to + BETWEEN && b.from < a.to + BETWEEN;
