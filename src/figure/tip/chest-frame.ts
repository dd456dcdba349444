import { GREY_INK, PAGE_INK, type Ink, type Point } from "../plate/index.ts";
import type { TipPlateInput } from "./tip-plate-input.ts";

/** Where the chest stands on the plate. Down is to scale in cm from the carina; across is drawn to be seen. */
export interface ChestFrame {
  readonly id: string;
  readonly ink: Ink;
  readonly width: number;
  readonly height: number;
  /** Left and right edge of what is shown. */
  readonly fromX: number;
  readonly toX: number;
  readonly narrow: boolean;
  /** Letters grow by this where the plate is small. */
  readonly letter: number;
  /** Height of a depth below the carina. */
  readonly y: (depthCm: number) => number;
  /** Middle of the way to the heart at a height: straight in the cava, leaning out in the atrium. */
  readonly middleX: (y: number) => number;
  readonly topY: number;
  readonly junctionY: number;
}

/** Scales to read back from the drawing: y = CARINA_Y + cm * PER_CM. */
export const PER_CM = 36;
export const CARINA_Y = 262;

/** Middle of trachea and of the superior vena cava, and half the width of the latter. */
export const TRACHEA_X = 330;
export const CAVA_X = 412;
export const CAVA_HALF = 30;

/** The heart is drawn this far below the mean junction, whatever the tip. */
export const HEART_CM = 5.6;

export function chestFrame(input: TipPlateInput): ChestFrame {
  const narrow = input.narrow ?? false;
  const elsewhere = input.kind === "elsewhere";
  const width = elsewhere ? 760 : 960;
  const y = (depthCm: number) => CARINA_Y + depthCm * PER_CM;
  const junctionY = y(input.junctionCm);
  const lean = (at: number) => Math.max(0, at - junctionY) / (HEART_CM * PER_CM);
  return {
    id: input.id,
    ink: input.grey ? GREY_INK : PAGE_INK,
    width,
    fromX: narrow ? (elsewhere ? 40 : 170) : 0,
    toX: narrow ? (elsewhere ? 700 : 690) : width,
    narrow,
    letter: narrow ? (elsewhere ? 1.8 : 1.5) : 1,
    height: 676,
    y,
    middleX: (at) => CAVA_X + 22 * Math.min(1, lean(at)) ** 1.4,
    topY: y(input.junctionCm - input.cavaCm),
    junctionY,
  };
}

/** Where the veins of neck and arm meet, on either side of the patient; the patient's right is on the right. */
export const VENOUS_ANGLE: Readonly<Record<"right" | "left", Point>> = {
  right: { x: 478, y: 84 },
  left: { x: 196, y: 84 },
};
