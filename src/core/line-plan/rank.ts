import type { Vein, VeinProfile } from "../arm/index.ts";
import type { ArmStanding } from "./arm-standing.ts";
import type { ScanCatheter, ScanPlace } from "./scan-stretch.ts";

/** A place with everything it is ranked by. */
export interface RankedPlace {
  readonly arm: ArmStanding;
  readonly profile: VeinProfile;
  readonly vein: Vein;
  readonly catheter: ScanCatheter;
  readonly place: ScanPlace;
}

/**
 * The order of candidates: every rule met before a question open, no tunnel before a tunnel, then the arm (reason, then
 * dominance), the vein, the band of the thirds, fewest lumens, smallest catheter, measured before interpolated, less
 * depth; last, the skin exit nearest the middle of the preferred half. A wider vein earns nothing once the ratio is met.
 */
export function rankingKey(ranked: RankedPlace, veinOrder: readonly Vein[]): readonly number[] {
  const veinRank = veinOrder.indexOf(ranked.vein);
  return [
    // a strong reason against the arm is a question of its own: a place there is no better than a question elsewhere
    Math.max(ranked.place.grade, ranked.arm.reasonRank >= 2 ? 1 : 0),
    ranked.place.tunnelled ? 1 : 0,
    ranked.arm.reasonRank,
    ranked.arm.dominanceRank,
    veinRank === -1 ? veinOrder.length : veinRank,
    ranked.place.bandRank,
    ranked.catheter.lumens,
    ranked.catheter.outsideDiameterMm,
    ranked.place.measured ? 0 : 1,
    ranked.place.depthMm,
    ranked.place.offMiddleCm,
  ];
}

/** Depths closer than this cannot be told apart with a caliper that reads to 0.1 mm. */
const SAME_DEPTH_MM = 0.05;

export function compareKeys(a: readonly number[], b: readonly number[]): number {
  for (let index = 0; index < a.length; index += 1) {
    const difference = (a[index] as number) - (b[index] as number);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Equal on every ranked point; depth as far as a caliper can tell. */
export function isTie(a: readonly number[], b: readonly number[]): boolean {
  const last = a.length - 2; // depth; what follows it only settles the order
  return (
    compareKeys(a.slice(0, last), b.slice(0, last)) === 0 &&
    Math.abs((a[last] as number) - (b[last] as number)) < SAME_DEPTH_MM
  );
}
