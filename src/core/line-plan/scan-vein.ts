import { tunnelFrom, pointIn, type Stretch, type Thirds, type VeinProfile } from "../arm/index.ts";
import { normalQuantile } from "../distribution/index.ts";
import { centimetre, type Centimetre, type Degree, type Millimetre } from "../quantity/index.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import { angleBandVerdict, depthVerdict, gradeOf, skinVerdict, stretchGrade, type Grade } from "./place-verdict.ts";

/** A catheter of the shelf as the scan needs it; the shelf comes sorted by fewest lumens, then smallest diameter. */
export interface ScanCatheter {
  readonly id: string;
  readonly outsideDiameterMm: Millimetre;
  readonly lumens: number;
  /** 0 its label carries the need and its size is within the weight band; 1 a question is open. */
  readonly grade: 0 | 1;
}

/** The best place for one catheter in one vein, with the points it is ranked by. */
export interface ScanPlace {
  readonly catheterIndex: number;
  readonly stretch: Stretch;
  readonly veinEntryCm: Centimetre;
  readonly angleDegree: Degree;
  readonly grade: Grade;
  readonly tunnelled: boolean;
  /** 0 preferred half, 1 lower half of the middle third, 2 elsewhere. */
  readonly bandRank: number;
  readonly measured: boolean;
  readonly depthMm: Millimetre;
}

/** One needle position: how the place stands before any catheter is tried in it. */
interface Stand {
  readonly skinExitCm: number;
  readonly grade: Grade;
  readonly tunnelled: boolean;
  readonly bandRank: number;
}

/** The points a vein is judged at: every station, and the grid between stations that may be read. */
export function* entriesOf(stretch: Stretch, gridMm: Millimetre): Generator<Centimetre> {
  if (stretch.from === stretch.to) {
    yield stretch.from.atCm;
    return;
  }
  const perCm = 10 / gridMm;
  const last = Math.ceil(stretch.to.atCm * perCm - 1e-9) - 1;
  for (let step = Math.floor(stretch.from.atCm * perCm + 1e-9) + 1; step <= last; step += 1)
    yield centimetre(step / perCm);
}

/** One needle angle with the cotangents of it and of a hand that is off by the angle error. */
export interface AngleReach {
  readonly angleDegree: Degree;
  readonly cot: number;
  readonly cotFlat: number;
  readonly cotSteep: number;
}

const cotangent = (degrees: number): number => 1 / Math.tan((degrees * Math.PI) / 180);

export const angleReach = (angleDegree: Degree, errorDegree: Degree): AngleReach => ({
  angleDegree,
  cot: cotangent(angleDegree),
  cotFlat: cotangent(angleDegree - errorDegree),
  cotSteep: cotangent(angleDegree + errorDegree),
});

/** Where the skin is entered and left for one angle, and how that stands against the thirds. */
export function standAt(
  thirds: Thirds,
  place: {
    readonly veinEntryCm: Centimetre;
    readonly depthMm: Millimetre;
    readonly reach: AngleReach;
    readonly pointGrade: Grade;
  },
  policy: PlanPolicy,
): Stand {
  const { reach, veinEntryCm } = place;
  const depthCm = place.depthMm / 10;
  const skin = centimetre(veinEntryCm - depthCm * reach.cot);
  const skinOutcome = skinVerdict(thirds, skin, policy.tapeErrorMm);
  if (skinOutcome === "not met" && skin >= thirds.upperFromCm) {
    const tunnel = tunnelFrom(thirds, skin, policy);
    if (tunnel) {
      const grade = Math.max(place.pointGrade, 1) as Grade; // a tunnel is always a question
      return { skinExitCm: tunnel.exitCm, grade, tunnelled: true, bandRank: rankOfBand(thirds, tunnel.exitCm) };
    }
  }
  const flat = centimetre(veinEntryCm - depthCm * reach.cotFlat);
  const steep = centimetre(veinEntryCm - depthCm * reach.cotSteep);
  const grade = Math.max(
    place.pointGrade,
    gradeOf(skinOutcome),
    gradeOf(angleBandVerdict(thirds, flat, steep)),
    veinEntryCm >= thirds.upperFromCm ? 1 : 0,
  ) as Grade;
  return { skinExitCm: skin, grade, tunnelled: false, bandRank: rankOfBand(thirds, skin) };
}

function rankOfBand(thirds: Thirds, skinExitCm: number): number {
  if (skinExitCm >= thirds.upperFromCm || skinExitCm < thirds.middleFromCm) return 2;
  return skinExitCm >= thirds.preferredFromCm ? 0 : 1;
}

/** The diameters at which a catheter's chance of being within the limit reaches the two cuts, per unit of SD. */
export interface ChanceCuts {
  readonly metZ: number;
  readonly notMetZ: number;
}

export const chanceCuts = (policy: Pick<PlanPolicy, "chanceMet" | "chanceNotMet">): ChanceCuts => ({
  metZ: normalQuantile(policy.chanceMet),
  notMetZ: normalQuantile(policy.chanceNotMet),
});

/**
 * The best place of every catheter in one vein: all entries x angles x catheters, judged by verdicts alone.
 * A refused place (grade 2) is kept only with `keepRefused`, when a person has fixed the place and asks what is wrong.
 */
export function scanVein(
  profile: VeinProfile,
  thirds: Thirds,
  shelf: readonly ScanCatheter[],
  policy: PlanPolicy,
  cuts: ChanceCuts,
  only?: {
    readonly atCm: Centimetre;
    readonly stretch: Stretch;
    readonly angleDegree?: Degree | undefined;
    readonly keepRefused: true;
  },
): readonly ScanPlace[] {
  const best: (ScanPlace | undefined)[] = shelf.map(() => undefined);
  const bestKey = new Float64Array(shelf.length).fill(Infinity);
  const bestMiss = new Float64Array(shelf.length).fill(Infinity);
  const needed = shelf.map(({ outsideDiameterMm }) => outsideDiameterMm / policy.ratioLimit);
  const middle = (thirds.preferredFromCm + thirds.upperFromCm) / 2;
  const worstKept: Grade = only?.keepRefused ? 2 : 1;
  const reaches = (only?.angleDegree === undefined ? policy.anglesDegree : [only.angleDegree]).map((angle) =>
    angleReach(angle, policy.angleErrorDegree),
  );
  const ownGrades = shelf.map(({ grade }) => grade);

  for (const stretch of only ? [only.stretch] : profile.stretches) {
    const stationsGrade = stretchGrade(stretch);
    if (stationsGrade > worstKept) continue;
    for (const entry of only ? [only.atCm] : entriesOf(stretch, policy.gridMm)) {
      const point = pointIn(stretch, entry, policy);
      const ownGrade = Math.max(stationsGrade, gradeOf(depthVerdict(point.depthMm, policy))) as Grade;
      if (ownGrade > worstKept) continue;
      for (const reach of reaches) {
        const stand = standAt(
          thirds,
          { veinEntryCm: entry, depthMm: point.depthMm, reach, pointGrade: ownGrade },
          policy,
        );
        if (stand.grade > worstKept) continue;
        const miss = Math.abs(stand.skinExitCm - middle);
        for (let index = 0; index < shelf.length; index += 1) {
          const spare = (point.diameterMm - (needed[index] as number)) / point.sdMm;
          const ratioGrade: Grade = spare >= cuts.metZ ? 0 : spare <= cuts.notMetZ ? 2 : 1;
          const grade = Math.max(stand.grade, ratioGrade, ownGrades[index] as Grade) as Grade;
          if (grade > worstKept) continue;
          const key = placeKey(grade, stand, point.measured, point.depthMm);
          if (key > (bestKey[index] as number)) continue;
          if (key === bestKey[index] && miss >= (bestMiss[index] as number)) continue;
          bestKey[index] = key;
          bestMiss[index] = miss;
          best[index] = {
            catheterIndex: index,
            stretch,
            veinEntryCm: entry,
            angleDegree: reach.angleDegree,
            grade,
            tunnelled: stand.tunnelled,
            bandRank: stand.bandRank,
            measured: point.measured,
            depthMm: point.depthMm,
          };
        }
      }
    }
  }
  return best.filter((place): place is ScanPlace => place !== undefined);
}

/** Standing, tunnel, band, measured and depth in one number, so that two places compare in one step. */
function placeKey(grade: Grade, stand: Stand, measured: boolean, depthMm: Millimetre): number {
  return (((grade * 2 + (stand.tunnelled ? 1 : 0)) * 3 + stand.bandRank) * 2 + (measured ? 0 : 1)) * 1000 + depthMm;
}
