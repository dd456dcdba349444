import { pointIn, type Stretch, type Thirds, type VeinProfile } from "../arm/index.ts";
import { centimetre, millimetreToCentimetre, type Centimetre } from "../quantity/index.ts";
import type { AllowedInterval } from "./plan-answer.ts";
import { gradeOf, passesBeyond, pointGrade, stretchGrade, type Grade } from "./place-verdict.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import { angleReach, entriesOf, standAt, type ChanceCuts, type ScanCatheter, type ScanPlace } from "./scan-stretch.ts";

interface Entry {
  readonly atCm: Centimetre;
  readonly stretch: Stretch;
}

/**
 * The unbroken run of vein entries around a place that stand as well as it does, with the same angle and catheter:
 * no worse graded, no tunnel where it has none, the same band of the thirds.
 */
export function allowedAround(
  profile: VeinProfile,
  thirds: Thirds,
  catheter: ScanCatheter,
  place: ScanPlace,
  policy: PlanPolicy,
  cuts: ChanceCuts,
): {
  readonly interval: AllowedInterval;
  readonly entries: readonly { readonly atCm: Centimetre; readonly stretch: Stretch }[];
} {
  const reach = angleReach(place.angleDegree, policy.angleErrorDegree);
  const entries: Entry[] = profile.stretches
    .flatMap((stretch) => [...entriesOf(stretch, policy.gridMm)].map((atCm) => ({ atCm, stretch })))
    .sort((a, b) => a.atCm - b.atCm);

  function stands(index: number): boolean {
    const { stretch, atCm } = entries[index] as Entry;
    const point = pointIn(stretch, atCm, policy);
    const stand = standAt(
      thirds,
      {
        veinEntryCm: atCm,
        depthMm: point.depthMm,
        reach,
        pointGrade: pointGrade(stretchGrade(stretch), point, policy),
      },
      policy,
    );
    const spare = (point.diameterMm - catheter.outsideDiameterMm / policy.ratioLimit) / point.sdMm;
    const ratioGrade = gradeOf(spare >= cuts.metZ ? "met" : spare <= cuts.notMetZ ? "not met" : "at the limit");
    const beyondGrade = catheter.outsideDiameterMm > passesBeyond(stretch, policy, cuts.metZ) ? 1 : 0;
    const grade = Math.max(stand.grade, ratioGrade, catheter.grade, beyondGrade) as Grade;
    return grade <= place.grade && stand.tunnelled === place.tunnelled && stand.bandRank === place.bandRank;
  }

  const home = entries.findIndex((entry) => entry.atCm === place.veinEntryCm);
  const step = 1.5 * millimetreToCentimetre(policy.gridMm); // a wider gap is a stretch that may not be read
  let first = home;
  let last = home;
  const joined = (a: number, b: number) => Math.abs((entries[a] as Entry).atCm - (entries[b] as Entry).atCm) <= step;
  while (first > 0 && joined(first, first - 1) && stands(first - 1)) first -= 1;
  while (last + 1 < entries.length && joined(last, last + 1) && stands(last + 1)) last += 1;
  return {
    interval: { fromCm: (entries[first] as Entry).atCm, toCm: (entries[last] as Entry).atCm },
    entries: entries.slice(first, last + 1),
  };
}

/**
 * The point to aim for: the ranked place, moved off the edges of its interval by the tape error where there is room,
 * else to the middle. A tape that is a little off then still lands inside.
 */
export function pointInside(interval: AllowedInterval, wanted: Centimetre, tapeErrorCm: Centimetre): Centimetre {
  const room = interval.toCm - interval.fromCm;
  if (room < 2 * tapeErrorCm) return centimetre((interval.fromCm + interval.toCm) / 2);
  return centimetre(Math.min(Math.max(wanted, interval.fromCm + tapeErrorCm), interval.toCm - tapeErrorCm));
}
