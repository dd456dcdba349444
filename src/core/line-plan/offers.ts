import { pointIn, VEINS, type Side, type Vein } from "../arm/index.ts";
import { millimetre } from "../quantity/index.ts";
import type { ArmStanding } from "./arm-standing.ts";
import { depthVerdict, gradeOf, skinVerdict, stationVerdicts, type StationRule } from "./place-verdict.ts";
import type { Offer } from "./plan-answer.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import { angleReach, entriesOf, standAt, type ChanceCuts, type ScanCatheter } from "./scan-stretch.ts";
import { centimetre } from "../quantity/index.ts";

/**
 * Which rule empties the list: of all places x catheters, the rule that is alone in refusing most of them; where none is
 * alone, the rule that refuses most.
 */
export function emptyingRule(
  arms: readonly ArmStanding[],
  shelf: readonly ScanCatheter[],
  policy: PlanPolicy,
  cuts: ChanceCuts,
): string | undefined {
  const alone = new Map<string, number>();
  const any = new Map<string, number>();
  const count = (tally: Map<string, number>, code: string) => tally.set(code, (tally.get(code) ?? 0) + 1);
  for (const { atCm, stretch, thirds } of placesOf(arms, policy)) {
    const point = pointIn(stretch, atCm, policy);
    const stations = stationVerdicts(point.stations);
    const atPoint = (Object.keys(stations) as StationRule[]).filter((rule) => stations[rule] === "not met") as string[];
    if (depthVerdict(point.depthMm, policy) === "not met") atPoint.push("vein-depth");
    for (const reach of reachesOf(policy)) {
      const skin = centimetre(atCm - (point.depthMm / 10) * reach.cot);
      const stand = standAt(thirds, { veinEntryCm: atCm, depthMm: point.depthMm, reach, pointGrade: 0 }, policy);
      const wrongSkin = !stand.tunnelled && gradeOf(skinVerdict(thirds, skin, policy.tapeErrorMm)) === 2;
      for (const catheter of shelf) {
        const spare = (point.diameterMm - catheter.outsideDiameterMm / policy.ratioLimit) / point.sdMm;
        const refusing = [...atPoint];
        if (wrongSkin) refusing.push("skin-in-middle-third");
        if (spare <= cuts.notMetZ) refusing.push("catheter-to-vein-ratio");
        for (const code of refusing) count(any, code);
        if (refusing.length === 1) count(alone, refusing[0] as string);
      }
    }
  }
  return most(alone) ?? most(any);
}

const reachesOf = (policy: PlanPolicy) =>
  policy.anglesDegree.map((angle) => angleReach(angle, policy.angleErrorDegree));

const most = (tally: ReadonlyMap<string, number>): string | undefined =>
  [...tally].sort(([codeA, a], [codeB, b]) => b - a || (codeA < codeB ? -1 : 1))[0]?.[0];

function* placesOf(arms: readonly ArmStanding[], policy: PlanPolicy) {
  for (const arm of arms) {
    if (!arm.usable || !arm.thirds) continue;
    for (const profile of arm.profiles) {
      for (const stretch of profile.stretches) {
        for (const atCm of entriesOf(stretch, policy.gridMm))
          yield { atCm, stretch, thirds: arm.thirds, side: arm.side, vein: profile.survey.vein };
      }
    }
  }
}

/** What to try when nothing fits, in the order it is offered. */
export function offersWhenEmpty(
  arms: readonly ArmStanding[],
  shelf: readonly ScanCatheter[],
  policy: PlanPolicy,
  cuts: ChanceCuts,
): readonly Offer[] {
  const offers: Offer[] = [];
  const smallest = Math.min(...shelf.map((catheter) => catheter.outsideDiameterMm));
  const admitted = largestAdmitted(arms, policy, cuts);
  if (admitted && admitted.largestOutsideDiameterMm > 0 && admitted.largestOutsideDiameterMm < smallest) {
    offers.push({ kind: "smaller catheter", ...admitted });
  }
  for (const arm of arms) {
    const seen = new Set(
      arm.profiles.filter((profile) => profile.ordered.length > 0).map((profile) => profile.survey.vein),
    );
    const unseen = VEINS.filter((vein) => vein !== "second brachial" && !seen.has(vein));
    if (arm.usable && seen.size > 0 && unseen.length > 0)
      offers.push({ kind: "survey another vein", side: arm.side, veins: unseen });
  }
  const openArms = arms.filter((arm) => !arm.barred);
  const unsurveyed = openArms.filter((arm) => arm.profiles.every((profile) => profile.ordered.length === 0));
  if (unsurveyed.length < openArms.length)
    for (const arm of unsurveyed) offers.push({ kind: "survey the other arm", side: arm.side });
  offers.push(...tunnelOffers(arms), { kind: "another kind of device" });
  return offers;
}

/** The widest catheter any place that is otherwise allowed would admit: OD = limit x (d - z SD). */
function largestAdmitted(arms: readonly ArmStanding[], policy: PlanPolicy, cuts: ChanceCuts) {
  let best: { largestOutsideDiameterMm: ReturnType<typeof millimetre>; side: Side; vein: Vein } | undefined;
  for (const { atCm, stretch, thirds, side, vein } of placesOf(arms, policy)) {
    const point = pointIn(stretch, atCm, policy);
    const stationRefuses = Object.values(stationVerdicts(point.stations)).includes("not met");
    if (stationRefuses || depthVerdict(point.depthMm, policy) === "not met") continue;
    const reachable = reachesOf(policy).some(
      (reach) => standAt(thirds, { veinEntryCm: atCm, depthMm: point.depthMm, reach, pointGrade: 0 }, policy).grade < 2,
    );
    const admits = policy.ratioLimit * (point.diameterMm - cuts.metZ * point.sdMm);
    if (reachable && admits > (best?.largestOutsideDiameterMm ?? 0))
      best = { largestOutsideDiameterMm: millimetre(admits), side, vein };
  }
  return best;
}

/** A vein nobody has followed into the upper third may still be reached there and tunnelled down. */
function tunnelOffers(arms: readonly ArmStanding[]): Offer[] {
  return arms.flatMap((arm): Offer[] => {
    const { thirds } = arm;
    if (!arm.usable || !thirds) return [];
    const profile = arm.profiles.find(
      ({ ordered }) => ordered.length > 0 && ordered.every((station) => station.atCm < thirds.upperFromCm),
    );
    return profile ? [{ kind: "tunnel from the upper third", side: arm.side, vein: profile.survey.vein }] : [];
  });
}
