import { tunnelFrom, pointIn, type ProfilePoint, type Stretch, type Thirds } from "../arm/index.ts";
import { normalQuantile } from "../distribution/index.ts";
import { centimetre, type Centimetre, type Degree, type Millimetre } from "../quantity/index.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import {
  angleBandVerdict,
  gradeOf,
  passesBeyond,
  pointGrade,
  skinVerdict,
  stretchGrade,
  type Grade,
} from "./place-verdict.ts";

/** A catheter of the shelf as the scan needs it; the shelf comes sorted by fewest lumens, then smallest diameter. */
export interface ScanCatheter {
  readonly id: string;
  readonly outsideDiameterMm: Millimetre;
  readonly lumens: number;
  /** 0 its label carries the need and its size is within the weight band; 1 a question is open. */
  readonly grade: 0 | 1;
}

/** The best place for one catheter in one stretch of vein, with the points it is ranked by. */
export interface ScanPlace {
  readonly key: number;
  /** How far the skin exit lies from the middle of the preferred half; settles what nothing else does. */
  readonly offMiddleCm: number;
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
      // a tunnel is asked about, and ranks behind every place without one, but it breaks no rule: better than a tight vein
      return {
        skinExitCm: tunnel.exitCm,
        grade: place.pointGrade,
        tunnelled: true,
        bandRank: rankOfBand(thirds, tunnel.exitCm),
      };
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

/** A place a person fixed: judged there alone, and kept even when a rule refuses it, so that the rule can be named. */
export interface FixedScan {
  readonly atCm: Centimetre;
  readonly angleDegree: Degree | undefined;
}

/** The best places of one stretch of vein, one each for its two best catheters: all entries x angles x catheters, by verdicts alone. */
export function scanStretch(
  stretch: Stretch,
  thirds: Thirds,
  shelf: readonly ScanCatheter[],
  policy: PlanPolicy,
  cuts: ChanceCuts,
  fixed?: FixedScan,
): readonly ScanPlace[] {
  const worstKept: Grade = fixed ? 2 : 1;
  const stationsGrade = stretchGrade(stretch);
  if (stationsGrade > worstKept) return [];
  const best = shelf.map((): BestSoFar => ({ key: Infinity, offMiddleCm: Infinity, grade: 2 }));
  const needed = shelf.map(({ outsideDiameterMm }) => outsideDiameterMm / policy.ratioLimit);
  const widest = passesBeyond(stretch, policy, cuts.metZ);
  const ownGrades = shelf.map((catheter) => Math.max(catheter.grade, catheter.outsideDiameterMm > widest ? 1 : 0));
  const middle = (thirds.preferredFromCm + thirds.upperFromCm) / 2;
  const reaches = (fixed?.angleDegree === undefined ? policy.anglesDegree : [fixed.angleDegree]).map((angle) =>
    angleReach(angle, policy.angleErrorDegree),
  );

  for (const entry of fixed ? [fixed.atCm] : entriesOf(stretch, policy.gridMm)) {
    const point = pointIn(stretch, entry, policy);
    const ownGrade = pointGrade(stationsGrade, point, policy);
    if (ownGrade > worstKept) continue;
    for (const reach of reaches) {
      const place = { veinEntryCm: entry, depthMm: point.depthMm, reach, pointGrade: ownGrade };
      const stand = standAt(thirds, place, policy);
      if (stand.grade > worstKept) continue;
      const offMiddleCm = Math.abs(stand.skinExitCm - middle);
      const leastKey = placeKey(stand.grade, stand, point.depthMm);
      for (let index = 0; index < shelf.length; index += 1) {
        const held = best[index] as BestSoFar;
        // no catheter stands better than its place
        if (leastKey > held.key) continue;
        const spare = (point.diameterMm - (needed[index] as number)) / point.sdMm;
        const ratioGrade: Grade = spare >= cuts.metZ ? 0 : spare <= cuts.notMetZ ? 2 : 1;
        const grade = Math.max(stand.grade, ratioGrade, ownGrades[index] as number) as Grade;
        if (grade > worstKept) continue;
        const key = placeKey(grade, stand, point.depthMm);
        if (key > held.key || (key === held.key && offMiddleCm >= held.offMiddleCm)) continue;
        held.key = key;
        held.offMiddleCm = offMiddleCm;
        held.grade = grade;
        held.point = point;
        held.stand = stand;
        held.reach = reach;
      }
    }
  }
  const places = best.flatMap((held, index) => placeOf(held, index, stretch));
  return fixed ? places : twoBest(places);
}

/** The best stand of one catheter so far, rewritten in place: the scan's innermost loop makes nothing new. */
interface BestSoFar {
  key: number;
  offMiddleCm: number;
  grade: Grade;
  point?: ProfilePoint;
  stand?: Stand;
  reach?: AngleReach;
}

function placeOf(held: BestSoFar, catheterIndex: number, stretch: Stretch): readonly ScanPlace[] {
  const { key, offMiddleCm, grade, point, stand, reach } = held;
  if (!point || !stand || !reach) return [];
  return [
    {
      key,
      offMiddleCm,
      catheterIndex,
      stretch,
      veinEntryCm: point.atCm,
      angleDegree: reach.angleDegree,
      grade,
      tunnelled: stand.tunnelled,
      bandRank: stand.bandRank,
      measured: point.measured,
      depthMm: point.depthMm,
    },
  ];
}

/**
 * The two best catheters of a stretch, by standing, tunnel and band, then by the order of the shelf. The two best of a
 * whole vein are always among these: a catheter third in its stretch has two before it in the vein too.
 */
function twoBest(places: readonly ScanPlace[]): readonly ScanPlace[] {
  const rank = (place: ScanPlace) => Math.floor(place.key / STEP) * 1e6 + place.catheterIndex;
  let first: ScanPlace | undefined;
  let second: ScanPlace | undefined;
  for (const place of places) {
    if (!first || rank(place) < rank(first)) {
      second = first;
      first = place;
    } else if (!second || rank(place) < rank(second)) second = place;
  }
  return [first, second].filter((place): place is ScanPlace => place !== undefined);
}

/** Wider than any depth in millimetres, so that depth never reaches into the rank before it. */
const STEP = 1000;

/** Standing, tunnel, band and depth in one number, so that two places of a stretch compare in one step. */
function placeKey(grade: Grade, stand: Stand, depthMm: Millimetre): number {
  return ((grade * 2 + (stand.tunnelled ? 1 : 0)) * 3 + stand.bandRank) * STEP + depthMm;
}
