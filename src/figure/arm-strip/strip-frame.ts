import { thirdsOf, veinProfile, type Station, type Thirds, type VeinProfile } from "../../core/arm/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { PAGE_INK, type Ink } from "../plate/index.ts";
import type { ArmStripInput } from "./arm-strip-input.ts";

/** Sizes of type for the width at hand: a narrow plate says less, and says it larger. */
export interface TypeSizes {
  readonly act: number;
  readonly label: number;
  readonly small: number;
  readonly region: number;
}

/** Where millimetres lie on the sheet. One scale along the arm, one into the depth, both read back by tests. */
export interface StripFrame {
  readonly id: string;
  readonly ink: Ink;
  readonly narrow: boolean;
  readonly type: TypeSizes;
  readonly width: number;
  readonly height: number;
  readonly thirds: Thirds;
  readonly profile: VeinProfile | undefined;
  /** Signed: a right arm is drawn with its elbow on the right, as its owner sees it. */
  readonly perCm: number;
  readonly originX: number;
  /** +1 when the armpit is on the right of the sheet. */
  readonly toArmpit: 1 | -1;
  readonly perMm: number;
  /** How many times larger depth is drawn than distance along the arm. */
  readonly depthTimes: number;
  readonly skinY: number;
  readonly bandTop: number;
  /** Where the deepest thing ends and lettering may begin. */
  readonly deepY: number;
  readonly bottomY: number;
  readonly stub: number;
  readonly x: (cm: number) => number;
  readonly y: (depthMm: number) => number;
  /** A point by its distance from the elbow in px, whichever way the arm lies. */
  readonly along: (u: number) => number;
  readonly lengthPx: number;
}

const DEPTH_TIMES = [4, 3, 2, 1.5, 1] as const;

export function frameOf(input: ArmStripInput): StripFrame {
  const { width } = input;
  const narrow = width < 560;
  const type: TypeSizes = narrow
    ? { act: 20, label: 15.5, small: 13.5, region: 14.5 }
    : { act: width < 900 ? 21 : 23, label: 16, small: 13.5, region: 16 };
  const stub = narrow ? 24 : Math.min(84, width * 0.075);
  const margin = narrow ? 4 : 8;
  const lengthPx = width - 2 * (margin + stub);
  const toArmpit = (input.side ?? input.chosen?.side) === "right" ? -1 : 1;
  const originX = toArmpit === 1 ? margin + stub : width - margin - stub;
  const perCm = (toArmpit * lengthPx) / input.armLengthCm;
  const profile = input.survey && veinProfile(input.survey);
  const deepest = deepestOf(input, profile?.ordered ?? []);
  const perMmFlat = Math.abs(perCm) / 10;
  const room = input.depthRoom ?? (narrow ? 150 : 190);
  const depthTimes = DEPTH_TIMES.find((times) => deepest * perMmFlat * times <= room) ?? 1;
  const perMm = perMmFlat * depthTimes;
  const bandTop = narrow ? 92 : 96;
  const skinY = bandTop + (narrow ? 20 : 22);
  const deepY = skinY + Math.max(deepest * perMm, 60);
  const bottomY = deepY + (narrow ? 100 : 88);
  return {
    id: input.id,
    ink: input.ink ?? PAGE_INK,
    narrow,
    type,
    width,
    height: bottomY + 34,
    thirds: thirdsOf(input.armLengthCm),
    profile,
    perCm,
    originX,
    toArmpit,
    perMm,
    depthTimes,
    skinY,
    bandTop,
    deepY,
    bottomY,
    stub,
    x: (cm) => originX + cm * perCm,
    y: (depthMm) => skinY + depthMm * perMm,
    along: (u) => originX + toArmpit * u,
    lengthPx,
  };
}

/** The deepest edge that is drawn: back wall and its doubt, of the vein and of the chosen place. */
function deepestOf({ chosen, policy, alternatives = [] }: ArmStripInput, stations: readonly Station[]): number {
  const back = [chosen, ...alternatives].flatMap((one) =>
    one && one.side === (chosen ?? one).side ? [one.depthMm + one.diameterMm + one.diameterSdMm] : [],
  );
  const seen = stations.flatMap(({ depthMm, diameterMm }) =>
    isMissing(depthMm) || isMissing(diameterMm) ? [] : [depthMm + diameterMm + 2 * policy.oneReadingSdMm],
  );
  return Math.max(10, ...seen, ...back) + 1;
}
