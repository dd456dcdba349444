import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";

/** How an outside length stands against the one at the last confirmed tip. */
export type LengthChange = "noise" | "out a little" | "out" | "in";

export interface ChangeSteps {
  /** Up to this a change is noise; also the most it may be in. */
  readonly noiseCm: number;
  readonly outCm: number;
}

/** Names a change of the outside length; positive is out. Exactly at a step belongs to the graver side of it. */
export function lengthChange(changeCm: number, { noiseCm, outCm }: ChangeSteps): LengthChange {
  // tapes are read to a millimetre: what differs by less than a tenth of one is the same reading
  const change = Math.round(changeCm * 1000) / 1000;
  if (change >= outCm) return "out";
  if (change < -noiseCm) return "in";
  return change > noiseCm ? "out a little" : "noise";
}

export interface TipEstimate {
  /** Carina to tip now, at most: slack in the vein may have taken some of the change up. */
  readonly depthAtMostCm: number;
  /** How far short of the deepest enabled target that is. */
  readonly aboveTargetCm: number;
  /** Undefined for a child, whose cava was not measured. */
  readonly zone:
    | "near the junction"
    | "lower third of the cava"
    | "middle of the cava"
    | "upper cava or out of it"
    | undefined;
  readonly findings: readonly Finding[];
}

/**
 * Where the tip may be after the outside length changed: depth now <= depth at the last film - change. Cm below carina.
 * An estimate from a tape, never a confirmed place: it only says what to fear until a film is read.
 * Source: cava 7.07 cm long and junction 4.03 cm below the carina, Mahlon and Yoon 2007; thirds counted from the junction.
 * Example: a tip at the junction, 3 cm out: at most 1.03 cm below the carina, the middle of the cava.
 */
export function tipEstimate(
  depthAtFilmCm: Maybe<number>,
  changeCm: number,
  targetCm: number,
  policy: { readonly cavaLengthCm: number | undefined; readonly noiseCm: number },
): TipEstimate | undefined {
  if (isMissing(depthAtFilmCm)) return undefined;
  const depthAtMostCm = depthAtFilmCm - changeCm;
  const aboveTargetCm = targetCm - depthAtMostCm;
  const third = (policy.cavaLengthCm ?? Number.NaN) / 3;
  const zone =
    policy.cavaLengthCm === undefined
      ? undefined
      : aboveTargetCm <= policy.noiseCm
        ? "near the junction"
        : aboveTargetCm <= third
          ? "lower third of the cava"
          : aboveTargetCm <= 2 * third
            ? "middle of the cava"
            : "upper cava or out of it";
  return {
    depthAtMostCm,
    aboveTargetCm,
    zone,
    findings: [
      finding(
        "tip-estimate-only",
        "not known",
        "note",
        { depthAtMostCm, ...(zone === undefined ? {} : { zone }) },
        { policy: ["tip.cava-length", "release.noise"] },
      ),
    ],
  };
}
