import { countPlateWords } from "../../language/index.ts";
import { element, lettered, widthOf, type Ink } from "../plate/index.ts";

/** What stands under one column: its name, what was counted, and over what. */
export interface Column {
  readonly name: string;
  readonly events: number;
  readonly days: number;
}

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
  readonly words: "level" | "stacked" | "sparse";
  /** Where the names of the columns begin, and where what each is over begins. */
  readonly names: number;
  readonly overs: number;
  readonly caption: readonly string[];
}

const STEPS = [1, 2, 2.5, 5, 10];
const TICKS = 4;
/** A number of the scale and a little air over it. */
const [TICK_ROOM, FEWEST_TICKS] = [17, 2];
const LEFT = 52;
const RIGHT = 16;
const TOP = 18;
const NAME_ROOM = { level: 18, stacked: 16, sparse: 18 } as const;
const OVER_ROOM = { level: 34, stacked: 26, sparse: 18 } as const;
/** Type of the rows under a plate. */
const ROW = 12;
const BETWEEN = 8;
/** Between two counts. */
const GAP = 5;
/** A plate as narrow as this has no room beside it for the name of a line: the name stands over the drawing. */
const NARROW = 560;
const LABEL_ROOM = 76;
const CAPTION_LINE = 17;
const CAPTION_FOOT = 5;

/**
 * A frame whose drawing is `plot` high; what stands under it takes the room it needs.
 * `columns` are spread from left to right; a plate with an axis of its own asks for `under` it instead.
 * `beside` is room between the axis and the words, for a strip or a line of days; `right` is room for a label at a line's end.
 */
export function frameOf(
  ink: Ink,
  width: number,
  most: number,
  {
    plot,
    caption,
    columns = [],
    under,
    beside = 0,
    right = RIGHT,
    close = false,
    head = 0,
  }: {
    readonly plot: number;
    readonly caption: string;
    readonly columns?: readonly Column[];
    readonly under?: number;
    readonly beside?: number;
    readonly right?: number;
    /** On paper: counts and days as two rows named once at the left, however narrow a column. */
    readonly close?: boolean;
    /** Room over the drawing. */
    readonly head?: number;
  },
): Frame {
  const wide = (width - LEFT - right) / Math.max(1, columns.length);
  const words = close ? "stacked" : widestColumn(columns) + BETWEEN <= wide ? "level" : "sparse";
  const top = TOP + head;
  const bottom = top + plot;
  const names = bottom + beside + 4;
  const overs = names + NAME_ROOM[words];
  const foot = under === undefined ? overs + OVER_ROOM[words] : bottom + under;
  const lines = captionLines(width, caption);
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
    caption: lines,
    height: foot + captionRoom(lines),
  };
}

const widestColumn = (columns: readonly Column[]): number =>
  Math.max(
    0,
    ...columns.flatMap(({ name, events, days }) => [
      widthOf(name, { size: ROW }),
      widthOf(countPlateWords.over(events, days).in, { size: ROW }),
    ]),
  );

/** A caption in as many lines as the plate is narrow, broken between its parts. */
export function captionLines(width: number, caption: string): readonly string[] {
  const room = width - LEFT - 4;
  const lines: string[] = [];
  for (const part of caption.split("; ")) {
    const last = lines.at(-1);
    const longer = last === undefined ? part : `${last}; ${part}`;
    if (last !== undefined && widthOf(longer, { size: ROW }) <= room) lines[lines.length - 1] = longer;
    else lines.push(part);
  }
  return lines;
}

/** What a caption takes at the foot of a plate. */
export const captionRoom = (caption: readonly string[]): number => CAPTION_FOOT + CAPTION_LINE * caption.length;

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

/** Room at the right for the name of the line of all. */
export const levelRoom = (width: number): number => (width < NARROW ? RIGHT : LABEL_ROOM);

/** The line of all or of the base, with its name at its end, or on a narrow plate over the drawing. */
export function levelLine({ ink, left, right, top, width }: Frame, y: number, name: string): string {
  const over = width - right < LABEL_ROOM;
  const how = { size: ROW, face: "serif", italic: true } as const;
  return (
    element("line", { x1: left, x2: right, y1: y, y2: y, stroke: ink.soft, "stroke-width": 1 }) +
    (over
      ? lettered(ink, right, top - 5, countPlateWords.line(name), { ...how, anchor: "end", part: "level" })
      : lettered(ink, right + 6, y + 4, name, { ...how, part: "level" }))
  );
}

/**
 * The names of the columns and what each is over. Narrow columns keep level words: every so many are named, the counts
 * stand where all have room, and the table under the plate has the rest.
 */
export function underColumns(frame: Frame, columns: readonly Column[]): string {
  const { words } = frame;
  if (words === "sparse") return sparseWords(frame, columns);
  const { ink, names, overs } = frame;
  const soft = { size: ROW, anchor: "middle", colour: ink.soft } as const;
  const plain = { size: ROW, anchor: "middle" } as const;
  const each = columns.map(({ name, events, days }, at) => {
    const x = xOf(frame, at);
    const over = countPlateWords.over(events, days);
    return words === "stacked"
      ? lettered(ink, x, names + 12, name, soft) +
          lettered(ink, x, overs + 11, over.events, plain) +
          lettered(ink, x, overs + 24, over.days, soft)
      : lettered(ink, x, names + 12, name, plain) +
          lettered(ink, x, overs + 12, over.events, soft) +
          lettered(ink, x, overs + 27, over.in, soft);
  });
  return each.join("") + (words === "stacked" ? rowNames(frame) : "");
}

function sparseWords(frame: Frame, columns: readonly Column[]): string {
  const { ink, names, overs, wide, left, width } = frame;
  const fits = columns.every(
    ({ events }) => widthOf(countPlateWords.over(events, 0).events, { size: ROW }) <= wide - GAP,
  );
  const widest = Math.max(0, ...columns.map(({ name }) => widthOf(name, { size: ROW })));
  const every = Math.max(1, Math.ceil((widest + BETWEEN) / wide));
  return columns
    .map(({ name, events }, at) => {
      const x = xOf(frame, at);
      // the first and the last name keep inside the plate
      const half = widthOf(name, { size: ROW }) / 2;
      const named = Math.min(Math.max(x, left - 44 + half), width - half);
      return (
        (at % every === 0
          ? element("line", { x1: x, x2: x, y1: names - 2, y2: names + 2, stroke: ink.soft }) +
            lettered(ink, named, names + 14, name, { size: ROW, anchor: "middle" })
          : "") +
        (fits
          ? lettered(ink, x, overs + 12, countPlateWords.over(events, 0).events, {
              size: ROW,
              anchor: "middle",
              colour: ink.soft,
            })
          : "")
      );
    })
    .join("");
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

/** The last lines under a plate: what its marks are. */
export function captionOf({ ink, left, height, caption }: Pick<Frame, "ink" | "left" | "height" | "caption">): string {
  return caption
    .map((line, at) =>
      lettered(ink, left, height - CAPTION_FOOT - (caption.length - 1 - at) * CAPTION_LINE, line, {
        size: ROW,
        face: "serif",
        italic: true,
        colour: ink.soft,
      }),
    )
    .join("");
}
