import { element, lettered, type Ink } from "../plate/index.ts";

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
}

const STEPS = [1, 2, 2.5, 5, 10];
const TICKS = 4;
/** Room under the axis for the months and what each rate is over. */
export const UNDER = 96;

export const frameOf = (ink: Ink, width: number, height: number, most: number, right = 16): Frame => ({
  ink,
  width,
  height,
  left: 52,
  right: width - right,
  top: 18,
  bottom: height - UNDER,
  most: most > 0 ? most : 1,
});

/** Round numbers from nought to the most, four or five of them. */
export function ticksTo(most: number): readonly number[] {
  const rough = most / TICKS;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = (STEPS.find((one) => one * power >= rough) ?? 10) * power;
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, at) => at * step);
}

export const yOf = ({ bottom, top, most }: Frame, value: number): number =>
  bottom - (Math.min(value, most) / most) * (bottom - top);

/** Hairlines with their numbers, and what the scale measures over them. */
export function scaleOf(frame: Frame, unit: string, say: (value: number) => string): string {
  const { ink, left, right, top } = frame;
  const lines = ticksTo(frame.most).map((value) => {
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
    lines.join("") + lettered(ink, left, top - 5, unit, { size: 13, face: "serif", italic: true, colour: ink.soft })
  );
}

/** Middle and width of each of so many columns. */
export function columnsOf(
  { left, right }: Frame,
  count: number,
): { readonly x: (at: number) => number; readonly wide: number } {
  const wide = (right - left) / Math.max(1, count);
  return { x: (at) => left + (at + 0.5) * wide, wide };
}

/** A word under a column: level where there is room, upright where there is not. */
export function under(frame: Frame, x: number, y: number, text: string, wide: number, soft = true): string {
  const { ink } = frame;
  const how = { size: 12, colour: soft ? ink.soft : ink.ink } as const;
  if (wide >= text.length * 7 + 4) return lettered(ink, x, y, text, { ...how, anchor: "middle" });
  return `<g transform="translate(${(x + 4).toFixed(1)} ${(y + 2).toFixed(1)}) rotate(-90)">${lettered(ink, 0, 0, text, { ...how, anchor: "end" })}</g>`;
}
