import { PAGE_INK, element, group, lettered, widthOf, plate, type Figure, type Ink } from "../plate/index.ts";

export interface LengthReading {
  /** Days since the line was placed; a fraction keeps two readings of one day apart. */
  readonly day: number;
  readonly outsideCm: number;
  /** "12 Mar", as it stands under the stroke. */
  readonly label: string;
  readonly fixesTip: boolean;
}

export interface LengthPlate {
  readonly readings: readonly LengthReading[];
  /** Outside length when the tip was last read or corrected. */
  readonly baselineCm: number | undefined;
  readonly noiseCm: number;
  readonly outCm: number;
}

const HEIGHT = 232;
const SKIN = 60;
const WIDE = { left: 84, right: 120, now: 26 } as const;
/** On a small screen the drawing keeps its lettering and gives up margin. */
const SLIM = { left: 92, right: 106, now: 22 } as const;
const NARROW = 480;
/** Dates stand in two rows over the skin, and lengths in two under the strokes; what would touch is told by the table. */
const DATE = { size: 13, row: 16, rows: 2 } as const;
const LENGTH = { size: 14, row: 15, rows: 2 } as const;
const BETWEEN = 6;

/**
 * What hangs out of the skin, reading by reading: each stroke is the catheter outside, from the skin down, at its true
 * proportion; the dashed line is the length at the last tip reading, the pale band what a tape cannot tell apart.
 */
export function lengthPlate(
  { readings, baselineCm, noiseCm, outCm }: LengthPlate,
  width: number,
  ink: Ink = PAGE_INK,
): Figure {
  const { left: LEFT, right: RIGHT, now } = width < NARROW ? SLIM : WIDE;
  const shown = spread(readings);
  const most = Math.max(4, (baselineCm ?? 0) + outCm + 1, ...readings.map(({ outsideCm }) => outsideCm + 0.5));
  const perCm = (HEIGHT - SKIN - 44) / most;
  const lastDay = Math.max(1, ...shown.map(({ day }) => day));
  const x = (day: number) => LEFT + ((width - LEFT - RIGHT) * day) / lastDay;
  const y = (cm: number) => SKIN + cm * perCm;
  const change = (cm: number) => (baselineCm === undefined ? 0 : cm - baselineCm);
  const moved = (cm: number) => change(cm) > noiseCm + 1e-9 || change(cm) < -noiseCm - 1e-9;
  const last = shown.at(-1);
  const dateRow = rowsOf(
    shown.map(({ day, label }) => ({ at: x(day), wide: widthOf(label, DATE) })),
    DATE.rows,
  );
  const lengthRow = rowsOf(
    shown.slice(0, -1).map(({ day, outsideCm }) => ({ at: x(day), wide: widthOf(outsideCm.toFixed(1), LENGTH) })),
    LENGTH.rows,
  );
  const strokes = shown.map((reading, at) => {
    const act = moved(reading.outsideCm);
    const isLast = at === shown.length - 1;
    const place = x(reading.day);
    const colour = act ? ink.act : ink.ink;
    const end = y(reading.outsideCm);
    return group(
      { "data-outside-cm": reading.outsideCm },
      element("line", { x1: place, x2: place, y1: SKIN, y2: end, stroke: colour, "stroke-width": isLast ? 6 : 3.4 }),
      element("circle", {
        cx: place,
        cy: end,
        r: isLast ? 6 : 4.5,
        // an open ring: a tip was read with this length; a filled dot: a tape alone
        fill: reading.fixesTip ? ink.paper : colour,
        stroke: colour,
        "stroke-width": 1.6,
      }),
      isLast
        ? lettered(ink, place + 16, end + 8, `${reading.outsideCm.toFixed(1)}\u202fcm`, {
            size: now,
            weight: 700,
            colour,
          })
        : lengthRow[at] === undefined
          ? ""
          : lettered(ink, place, end + 22 + LENGTH.row * (lengthRow[at] ?? 0), reading.outsideCm.toFixed(1), {
              size: LENGTH.size,
              anchor: "middle",
              rim: 4,
            }),
      dateRow[at] === undefined
        ? ""
        : lettered(ink, place, SKIN - 16 - DATE.row * (dateRow[at] ?? 0), reading.label, {
            size: DATE.size,
            anchor: "middle",
            colour: ink.soft,
            rim: 3,
          }),
    );
  });
  const band =
    baselineCm === undefined
      ? ""
      : group(
          {},
          element("rect", {
            x: LEFT - 16,
            y: y(Math.max(0, baselineCm - noiseCm)),
            width: width - LEFT - RIGHT + 40,
            height: y(baselineCm + noiseCm) - y(Math.max(0, baselineCm - noiseCm)),
            fill: ink.hair,
            "fill-opacity": 0.4,
          }),
          element("line", {
            x1: LEFT - 16,
            x2: width - RIGHT + 24,
            y1: y(baselineCm),
            y2: y(baselineCm),
            stroke: ink.ink,
            "stroke-width": 0.9,
            "stroke-dasharray": "5 4",
          }),
          lettered(ink, LEFT - 22, y(baselineCm) + 5, "at the film", {
            size: 14,
            face: "serif",
            italic: true,
            anchor: "end",
            colour: ink.soft,
          }),
        );
  const hatches = Math.floor((width - LEFT - RIGHT + 80) / 9);
  const skin = [
    element("line", {
      x1: LEFT - 40,
      x2: width - RIGHT + 40,
      y1: SKIN,
      y2: SKIN,
      stroke: ink.ink,
      "stroke-width": 1.6,
    }),
    ...Array.from({ length: hatches }, (_, at) =>
      element("line", {
        x1: LEFT - 36 + at * 9,
        x2: LEFT - 41 + at * 9,
        y1: SKIN,
        y2: SKIN - 7,
        stroke: ink.ink,
        "stroke-width": 0.7,
      }),
    ),
    lettered(ink, LEFT - 46, SKIN + 5, "skin", {
      size: 14,
      face: "serif",
      italic: true,
      anchor: "end",
      colour: ink.soft,
    }),
  ].join("");
  const sentence = sentenceOf(last, baselineCm, change);
  return {
    svg: plate(
      {
        id: "length-plate",
        kind: "length-plate",
        width,
        height: HEIGHT,
        title: "Outside length, then and now",
        description: sentence,
      },
      band,
      skin,
      ...strokes,
    ),
    sentence,
    table: {
      columns: ["Reading", "Day in place", "Outside, cm", "Change since the film, cm"],
      rows: readings.map(({ day, outsideCm, label, fixesTip }) => [
        `${label}${fixesTip ? ", tip read" : ""}`,
        Math.floor(day).toFixed(0),
        outsideCm.toFixed(1),
        baselineCm === undefined ? "not known" : signed(change(outsideCm)),
      ]),
    },
  };
}

function sentenceOf(
  last: LengthReading | undefined,
  baselineCm: number | undefined,
  change: (cm: number) => number,
): string {
  if (!last) return "No outside length is written.";
  const now = `Outside now ${last.outsideCm.toFixed(1)} cm`;
  if (baselineCm === undefined) return `${now}; no length was written when the tip was read.`;
  const by = change(last.outsideCm);
  if (Math.abs(by) < 0.05) return `${now}, as when the tip was read.`;
  return `${now}, ${baselineCm.toFixed(1)} when the tip was read: ${Math.abs(by).toFixed(1)} cm ${by > 0 ? "out" : "in"}.`;
}

const signed = (cm: number): string =>
  Math.abs(cm) < 0.05 ? "0.0" : `${cm > 0 ? "+" : "-"}${Math.abs(cm).toFixed(1)}`;

/** The row of each label in which it touches no other, the newest first and then the oldest; undefined where none is left. */
function rowsOf(
  labels: readonly { readonly at: number; readonly wide: number }[],
  rows: number,
): readonly (number | undefined)[] {
  const row: (number | undefined)[] = labels.map(() => undefined);
  const touches = (one: number, other: number): boolean => {
    const [a, b] = [labels[one], labels[other]];
    return a !== undefined && b !== undefined && Math.abs(a.at - b.at) < (a.wide + b.wide) / 2 + BETWEEN;
  };
  for (const at of [labels.length - 1, ...labels.keys()]) {
    if (row[at] !== undefined || at < 0) continue;
    row[at] = Array.from({ length: rows }, (_, one) => one).find((one) =>
      row.every((taken, other) => taken !== one || !touches(at, other)),
    );
  }
  return row;
}

const MOST_SHOWN = 9;

/** The first, the ones that fixed the tip and the latest; strokes of one day are kept a hand apart. */
function spread(readings: readonly LengthReading[]): readonly LengthReading[] {
  const kept =
    readings.length <= MOST_SHOWN ? readings : [readings[0] as LengthReading, ...readings.slice(1 - MOST_SHOWN)];
  const lastDay = Math.max(1, ...kept.map(({ day }) => day));
  const apart = lastDay / (MOST_SHOWN + 2);
  const placed: LengthReading[] = [];
  for (const reading of kept) {
    const before = placed.at(-1);
    placed.push(before && reading.day - before.day < apart ? { ...reading, day: before.day + apart } : reading);
  }
  return placed;
}
