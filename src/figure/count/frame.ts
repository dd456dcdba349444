import { countPlateWords } from "../../language/index.ts";
import { element, lettered, px, type Ink } from "../plate/index.ts";

/** Where a count's plate is drawn: a scale from nought upwards and columns from left to right. */
export interface Frame {
  readonly ink: Ink;
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly most: number;
  readonly wide: number;
  readonly words: "level" | "stacked" | "upright";
  /** Where the names of the columns begin, and where what each is over begins. */
  readonly names: number;
  readonly overs: number;
}

const STEPS = [1, 2, 2.5, 5, 10];
const TICKS = 4;
/** A number of the scale and a little air over it. */
const [TICK_ROOM, FEWEST_TICKS] = [17, 2];
const LEFT = 52;
const RIGHT = 16;
const TOP = 18;
/** A column as wide as this holds its words level; a narrower one holds them upright. */
const LEVEL = 56;
const NAME_ROOM = { level: 18, stacked: 16, upright: 48 } as const;
const OVER_ROOM = { level: 34, stacked: 26, upright: 76 } as const;
/** Type of the rows under a plate on paper. */
const ROW = 12;
const CAPTION_LINE = 17;
const CAPTION_ROOM = 22;
/** A caption has three or four parts, which a plate narrower than this cannot hold in one line. */
const NARROW = 560;
const CAPTION_PARTS = 4;

/**
 * A frame for so many columns: the drawing is `plot` high, and what stands under it takes the room it needs.
 * `beside` is room between the axis and the words, for a strip or a line of days; `right` is room for a label at a line's end.
 */
export function frameOf(
  ink: Ink,
  width: number,
  most: number,
  {
    plot,
    columns,
    beside = 0,
    right = RIGHT,
    named = true,
    close = false,
    head = 0,
  }: {
    readonly plot: number;
    readonly columns: number;
    readonly beside?: number;
    readonly right?: number;
    readonly named?: boolean;
    /** On paper: counts and days as two rows named once at the left, however narrow a column. */
    readonly close?: boolean;
    /** Room over the drawing. */
    readonly head?: number;
  },
): Frame {
  const wide = (width - LEFT - right) / Math.max(1, columns);
  const words = close ? "stacked" : wide >= LEVEL ? "level" : "upright";
  const top = TOP + head;
  const bottom = top + plot;
  // an open ring on the axis stands clear of a name that runs up to it
  const names = bottom + beside + (words === "upright" ? 9 : 4);
  const overs = names + (named ? NAME_ROOM[words] : 0);
  return {
    ink,
    width,
    left: LEFT,
    right: width - right,
    top,
    bottom,
    most: most > 0 ? most : 1,
    wide,
    words,
    names,
    overs,
    height: overs + OVER_ROOM[words] + captionRoom(width),
  };
}

/** What a caption takes at the foot of a plate: a line, or on a narrow plate one for each part. */
export const captionRoom = (width: number): number => (width < NARROW ? CAPTION_PARTS * CAPTION_LINE : CAPTION_ROOM);

/** As narrow as a column may be that has its words upright under it, two rows of them side by side. */
const NARROWEST = 16;

/** How many columns a plate of a width holds with the words of each. */
export const mostColumns = (width: number): number => Math.floor((width - LEFT - RIGHT) / NARROWEST);

/** The middle of a column. */
export const xOf = ({ left, wide }: Frame, at: number): number => left + (at + 0.5) * wide;

/** Round numbers from nought to the most, four or five of them, or fewer where there is little room. */
export function ticksTo(most: number, ticks = TICKS): readonly number[] {
  const rough = most / ticks;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = (STEPS.find((one) => one * power >= rough) ?? 10) * power;
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, at) => at * step);
}

export const yOf = ({ bottom, top, most }: Frame, value: number): number =>
  bottom - (Math.min(value, most) / most) * (bottom - top);

/** Hairlines with their numbers, and what the scale measures over them. */
export function scaleOf(frame: Frame, unit: string, say: (value: number) => string): string {
  const { ink, left, right, top } = frame;
  const room = Math.floor((frame.bottom - top) / TICK_ROOM);
  const lines = ticksTo(frame.most, Math.min(TICKS, Math.max(FEWEST_TICKS, room))).map((value) => {
    const y = yOf(frame, value);
    return (
      element("line", {
        x1: left,
        x2: right,
        y1: y,
        y2: y,
        stroke: value === 0 ? ink.ink : ink.hair,
        "stroke-width": 1,
      }) + lettered(ink, left - 8, y + 4, say(value), { size: 13, anchor: "end", colour: ink.soft })
    );
  });
  return (
    lines.join("") +
    lettered(ink, left, top - 5, unit, { size: 13, face: "serif", italic: true, colour: ink.soft, rim: 3 })
  );
}

/** The name of a column and what it is over, level or upright as the frame has room; an empty name is left out. */
export function underColumn(frame: Frame, at: number, name: string, events: number, days: number): string {
  const { ink, words, names, overs } = frame;
  const x = xOf(frame, at);
  // columns narrower than their words: every second, third, ... has them, and the table has all
  if (words === "upright" && at % Math.ceil((NARROWEST - 2) / frame.wide) !== 0) return "";
  const over = countPlateWords.over(events, days);
  if (words === "stacked")
    return (
      lettered(ink, x, names + 12, name, { size: ROW, anchor: "middle", colour: ink.soft }) +
      lettered(ink, x, overs + 11, over.events, { size: ROW, anchor: "middle" }) +
      lettered(ink, x, overs + 24, over.days, { size: ROW, anchor: "middle", colour: ink.soft }) +
      (at === 0 ? rowNames(frame) : "")
    );
  if (words === "level") {
    const soft = { size: 12, anchor: "middle", colour: ink.soft } as const;
    return (
      lettered(ink, x, names + 12, name, { size: 12, anchor: "middle" }) +
      lettered(ink, x, overs + 12, over.events, soft) +
      lettered(ink, x, overs + 27, over.in, soft)
    );
  }
  return upright(frame, x, names, name, ink.ink) + upright(frame, x, overs, `${over.events} ${over.in}`, ink.soft);
}

/** What the two rows under a plate on paper hold, named once. */
const rowNames = ({ ink, left, overs }: Frame): string =>
  [countPlateWords.overNames.events, countPlateWords.overNames.days]
    .map((name, at) =>
      lettered(ink, left - 8, overs + 11 + 13 * at, name, {
        size: ROW,
        face: "serif",
        italic: true,
        anchor: "end",
        colour: ink.soft,
      }),
    )
    .join("");

const upright = ({ ink }: Frame, x: number, y: number, text: string, colour: string): string =>
  text === ""
    ? ""
    : `<g transform="translate(${px(x + 4)} ${px(y)}) rotate(-90)">${lettered(ink, 0, 0, text, { size: 12, anchor: "end", colour })}</g>`;

/** The last line under a plate: what its marks are; on a narrow plate each part has a line of its own. */
export function captionOf(
  { ink, left, height, width }: Pick<Frame, "ink" | "left" | "height" | "width">,
  text: string,
): string {
  const parts = width < NARROW ? text.split("; ") : [text];
  return parts
    .map((part, at) =>
      lettered(ink, left, height - 5 - (parts.length - 1 - at) * CAPTION_LINE, part, {
        size: 12,
        face: "serif",
        italic: true,
        colour: ink.soft,
      }),
    )
    .join("");
}
