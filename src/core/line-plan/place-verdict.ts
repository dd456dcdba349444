import {
  anyStation,
  borderWithinTapeError,
  diameterSd,
  type ProfilePoint,
  type Station,
  type Stretch,
  type Thirds,
  type Vein,
} from "../arm/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import type { Centimetre, Millimetre } from "../quantity/index.ts";
import type { Verdict } from "../reason/index.ts";
import type { PlanPolicy } from "./plan-policy.ts";

/** The rules of one place as bare verdicts. The scan counts on them and `judgeCandidate` puts words to the same ones. */

/** A skin exit within the tape error of a border of the middle third is at the limit, on either side of it. */
export function skinVerdict(thirds: Thirds, skinExitCm: Centimetre, tapeErrorMm: Millimetre): Verdict {
  if (borderWithinTapeError(thirds, skinExitCm, tapeErrorMm)) return "at the limit";
  return skinExitCm >= thirds.middleFromCm && skinExitCm < thirds.upperFromCm ? "met" : "not met";
}

/** The skin entries of a flatter and a steeper hand must both stay in the middle third. */
export function angleBandVerdict(thirds: Thirds, fromCm: Centimetre, toCm: Centimetre): Verdict {
  return fromCm >= thirds.middleFromCm && toCm < thirds.upperFromCm ? "met" : "at the limit";
}

export function depthVerdict(depthMm: Millimetre, policy: Pick<PlanPolicy, "depthAskMm" | "depthStopMm">): Verdict {
  if (depthMm > policy.depthStopMm) return "not met";
  return depthMm > policy.depthAskMm ? "at the limit" : "met";
}

export type StationRule =
  | "vein-compresses"
  | "no-thrombus"
  | "artery-clear"
  | "nerve-clear"
  | "measured-without-tourniquet";

const wrong = (answer: Maybe<boolean>, verdict: Verdict): Verdict =>
  isMissing(answer) ? "not known" : answer ? verdict : "met";

/** What the probe saw beside and inside the vein, over the stations a point is read from. */
export function stationVerdicts(stations: readonly Station[]): Readonly<Record<StationRule, Verdict>> {
  const artery = stations.some((station) => station.artery === "in front")
    ? "not met"
    : stations.some((station) => station.artery === "beside")
      ? "at the limit"
      : stations.some((station) => isMissing(station.artery))
        ? "not known"
        : "met";
  const notCompressing = anyStation(stations, ({ compressible }) =>
    isMissing(compressible) ? compressible : !compressible,
  );
  return {
    "vein-compresses": wrong(notCompressing, "not met"),
    "no-thrombus": wrong(
      anyStation(stations, (station) => station.thrombus),
      "not met",
    ),
    "artery-clear": artery,
    "nerve-clear": wrong(
      anyStation(stations, (station) => station.nerveBeside),
      "at the limit",
    ),
    "measured-without-tourniquet": wrong(
      anyStation(stations, (station) => station.tourniquetOn),
      "at the limit",
    ),
  };
}

/** 0 every rule met, 1 something at its limit or not known, 2 a rule not met. */
export type Grade = 0 | 1 | 2;

export const gradeOf = (verdict: Verdict): Grade => (verdict === "met" ? 0 : verdict === "not met" ? 2 : 1);

/** A nerve nobody looked for is a quiet note, but a question beside the brachial veins, where the median nerve runs. */
export const isQuietUnknown = (rule: StationRule, verdict: Verdict, vein: Vein): boolean =>
  rule === "nerve-clear" && verdict === "not known" && vein !== "brachial" && vein !== "second brachial";

function stationGrade(verdicts: Readonly<Record<StationRule, Verdict>>, vein: Vein): Grade {
  let worst: Grade = 0;
  for (const [rule, verdict] of Object.entries(verdicts)) {
    const grade = isQuietUnknown(rule as StationRule, verdict, vein) ? 0 : gradeOf(verdict);
    if (grade > worst) worst = grade;
  }
  return worst;
}

/** What the stations of a stretch allow anywhere in it; the same for every point between them. */
export const stretchGrade = ({ vein, from, to }: Stretch): Grade =>
  stationGrade(stationVerdicts(from === to ? [from] : [from, to]), vein);

/** How far a point may lie from a measurement before a person is asked to look there. */
export const readingVerdict = (point: ProfilePoint, policy: Pick<PlanPolicy, "farReadingMm">): Verdict =>
  Math.abs(point.nearestStation.atCm - point.atCm) * 10 > policy.farReadingMm ? "at the limit" : "met";

/** What a point is worth before the skin and the catheter are looked at. */
export const pointGrade = (stationsGrade: Grade, point: ProfilePoint, policy: PlanPolicy): Grade =>
  Math.max(
    stationsGrade,
    gradeOf(depthVerdict(point.depthMm, policy)),
    gradeOf(readingVerdict(point, policy)),
  ) as Grade;

/** The widest catheter that passes the narrowest place beyond with the chance the policy wants; Infinity when none is known. */
export function passesBeyond(stretch: Stretch, policy: PlanPolicy, metZ: number): number {
  const place = stretch.narrowestBeyond;
  if (!place || isMissing(place.diameterMm)) return Infinity;
  return policy.ratioLimit * (place.diameterMm - metZ * diameterSd(policy, place.repeats));
}
