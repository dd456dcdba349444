import {
  bandAt,
  diameterSd,
  needlePath,
  pointIn,
  skinBand,
  tunnelFrom,
  type ProfilePoint,
  type Side,
  type Stretch,
  type Thirds,
  type Vein,
} from "../arm/index.ts";
import { judgeRatio, outsideDiameter, type StockCatheter } from "../catheter/index.ts";
import { isMissing } from "../missing/index.ts";
import type { Centimetre, Degree } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";
import type { AgeGroup } from "../age/index.ts";
import { catheterFindings, type PatientOfCatheter } from "./catheter-findings.ts";
import { found, usualLevel } from "./found.ts";
import {
  angleBandVerdict,
  depthVerdict,
  isQuietUnknown,
  readingVerdict,
  skinVerdict,
  stationVerdicts,
  type StationRule,
} from "./place-verdict.ts";
import type { Candidate, CandidateStanding } from "./plan-answer.ts";
import type { PlanPolicy } from "./plan-policy.ts";

export interface CandidatePlace {
  readonly side: Side;
  readonly vein: Vein;
  readonly thirds: Thirds;
  readonly stretch: Stretch;
  readonly veinEntryCm: Centimetre;
  readonly angleDegree: Degree;
  readonly catheter: StockCatheter;
}

export interface JudgedFor extends PatientOfCatheter {
  readonly ageGroup: AgeGroup;
}

/** Which policy row set the ratio limit that is in force for this patient. */
const RATIO_ROW: Readonly<Record<AgeGroup, string>> = {
  adult: "ratio.limit",
  child: "ratio.limit-child",
  newborn: "ratio.limit-newborn",
};

/** One way to place the line, held against every rule, with what was found and the limit beside it. */
export function judgeCandidate(place: CandidatePlace, patient: JudgedFor, policy: PlanPolicy): Candidate {
  const { thirds, veinEntryCm, angleDegree, catheter } = place;
  const point = pointIn(place.stretch, veinEntryCm, policy);
  const path = needlePath({
    veinEntryCm,
    depthMm: point.depthMm,
    angle: angleDegree,
    diameterMm: point.diameterMm,
    slope: point.slope,
  });
  const band = skinBand({
    veinEntryCm,
    depthMm: point.depthMm,
    angle: angleDegree,
    angleError: policy.angleErrorDegree,
  });
  const inUpperThird =
    skinVerdict(thirds, path.skinCm, policy.tapeErrorMm) === "not met" && path.skinCm >= thirds.upperFromCm;
  const tunnel = inUpperThird ? tunnelFrom(thirds, path.skinCm, policy) : undefined;
  const skinExitCm = tunnel?.exitCm ?? path.skinCm;
  const outsideDiameterMm = outsideDiameter(catheter);
  const ratio = judgeRatio(
    { outsideDiameterMm, diameterMm: point.diameterMm, sdMm: point.sdMm },
    { limit: policy.ratioLimit, chanceMet: policy.chanceMet, chanceNotMet: policy.chanceNotMet },
  );
  const findings: Finding[] = [
    ...skinFindings(thirds, skinExitCm, policy),
    ...(tunnel
      ? [
          found("tunnel-needed", "at the limit", "ask", ["tunnel.least-length"], {
            lengthCm: tunnel.lengthMm / 10,
            exitCm: tunnel.exitCm,
            needleSkinCm: tunnel.needleSkinCm,
          }),
        ]
      : needleFindings(thirds, veinEntryCm, band, policy)),
    ratioFinding(place, point, patient.ageGroup, policy, ratio),
    oneThirdFinding(outsideDiameterMm, point, policy),
    ...beyondFindings(place.stretch, outsideDiameterMm, policy),
    depthFinding(point, policy),
    ...stationFindings(point, place.vein),
    ...readingFindings(point, policy),
    ...catheterFindings(catheter, patient, policy),
  ];
  return {
    side: place.side,
    vein: place.vein,
    veinEntryCm,
    needleSkinCm: path.skinCm,
    skinExitCm,
    skinBand: band,
    armBand: bandAt(thirds, skinExitCm),
    angleDegree,
    depthMm: point.depthMm,
    diameterMm: point.diameterMm,
    diameterSdMm: point.sdMm,
    trackMm: path.trackMm,
    runToBackWallMm: path.runToBackWallMm,
    measured: point.measured,
    catheterId: catheter.id,
    outsideDiameterMm,
    ratio,
    tunnel,
    standing: standingOf(findings),
    findings,
  };
}

export function standingOf(findings: readonly Finding[]): CandidateStanding {
  if (findings.some((finding) => finding.level === "stop")) return "refused";
  return findings.some((finding) => finding.level === "ask") ? "ask" : "met";
}

function skinFindings(thirds: Thirds, skinExitCm: Centimetre, policy: PlanPolicy): Finding[] {
  const verdict = skinVerdict(thirds, skinExitCm, policy.tapeErrorMm);
  const preferred = skinExitCm >= thirds.preferredFromCm && skinExitCm < thirds.upperFromCm;
  return [
    found("skin-in-middle-third", verdict, usualLevel(verdict), ["arm.tape-error"], {
      skinExitCm,
      fromCm: thirds.middleFromCm,
      toCm: thirds.upperFromCm,
      band: bandAt(thirds, skinExitCm),
    }),
    found("skin-in-preferred-half", preferred ? "met" : "not met", preferred ? undefined : "note", [], {
      skinExitCm,
      fromCm: thirds.preferredFromCm,
      toCm: thirds.upperFromCm,
    }),
  ];
}

function needleFindings(
  thirds: Thirds,
  veinEntryCm: Centimetre,
  band: Candidate["skinBand"],
  policy: PlanPolicy,
): Finding[] {
  const verdict = angleBandVerdict(thirds, band.fromCm, band.toCm);
  const findings = [
    found("angle-band-in-middle-third", verdict, usualLevel(verdict), ["needle.angle-error"], {
      fromCm: band.fromCm,
      toCm: band.toCm,
      angleErrorDegree: policy.angleErrorDegree,
    }),
  ];
  if (veinEntryCm >= thirds.upperFromCm) {
    findings.push(
      found("vein-entry-in-upper-third", "at the limit", "ask", [], { veinEntryCm, upperFromCm: thirds.upperFromCm }),
    );
  }
  return findings;
}

function ratioFinding(
  place: CandidatePlace,
  point: ProfilePoint,
  group: AgeGroup,
  policy: PlanPolicy,
  ratio: Candidate["ratio"],
): Finding {
  return found(
    "catheter-to-vein-ratio",
    ratio.verdict,
    usualLevel(ratio.verdict),
    [RATIO_ROW[group], "ratio.chance-met", "vein.one-reading-sd"],
    {
      ratioPercent: ratio.ratio * 100,
      lowPercent: ratio.ratioLow * 100,
      highPercent: ratio.ratioHigh * 100,
      chancePercent: ratio.chance * 100,
      limitPercent: policy.ratioLimit * 100,
      diameterMm: point.diameterMm,
      outsideDiameterMm: outsideDiameter(place.catheter),
      catheter: place.catheter.name,
    },
  );
}

function oneThirdFinding(
  outsideDiameterMm: Candidate["outsideDiameterMm"],
  point: ProfilePoint,
  policy: PlanPolicy,
): Finding {
  const mark = Math.min(...policy.ratioMarks);
  const third = judgeRatio(
    { outsideDiameterMm, diameterMm: point.diameterMm, sdMm: point.sdMm },
    { limit: mark, chanceMet: policy.chanceMet, chanceNotMet: policy.chanceNotMet },
  );
  return found("one-third-mark", third.verdict, "note", ["ratio.marks"], {
    chancePercent: third.chance * 100,
    ratioPercent: third.ratio * 100,
    markPercent: mark * 100,
  });
}

function depthFinding(point: ProfilePoint, policy: PlanPolicy): Finding {
  const verdict = depthVerdict(point.depthMm, policy);
  return found("vein-depth", verdict, usualLevel(verdict), ["vein.depth-ask", "vein.depth-stop"], {
    depthMm: point.depthMm,
    askMm: policy.depthAskMm,
    stopMm: policy.depthStopMm,
  });
}

/** The catheter has to pass every place further on; the narrowest one measured is held to the same limit. */
function beyondFindings(
  stretch: Stretch,
  outsideDiameterMm: Candidate["outsideDiameterMm"],
  policy: PlanPolicy,
): Finding[] {
  const narrow = stretch.narrowestBeyond;
  if (!narrow || isMissing(narrow.diameterMm)) return [];
  const { ratio, chance, verdict } = judgeRatio(
    { outsideDiameterMm, diameterMm: narrow.diameterMm, sdMm: diameterSd(policy, narrow.repeats) },
    { limit: policy.ratioLimit, chanceMet: policy.chanceMet, chanceNotMet: policy.chanceNotMet },
  );
  if (verdict === "met") return [];
  const values = {
    diameterMm: narrow.diameterMm,
    atCm: narrow.atCm,
    ratioPercent: ratio * 100,
    chancePercent: chance * 100,
  };
  return [found("vein-narrows-beyond", verdict, "ask", ["ratio.limit"], values)];
}

function stationFindings(point: ProfilePoint, vein: Vein): Finding[] {
  const verdicts = stationVerdicts(point.stations);
  return (Object.keys(verdicts) as StationRule[]).map((rule) => {
    const verdict = verdicts[rule];
    const quiet = isQuietUnknown(rule, verdict, vein);
    const artery = point.stations
      .map((station) => station.artery)
      .find((place) => place === "in front" || place === "beside");
    return found(
      rule,
      verdict,
      quiet ? "note" : usualLevel(verdict),
      [],
      rule === "artery-clear" && artery ? { artery } : {},
    );
  });
}

function readingFindings(point: ProfilePoint, policy: PlanPolicy): Finding[] {
  if (point.measured) return [];
  const verdict = readingVerdict(point, policy);
  return [
    found(
      "between-readings",
      verdict,
      verdict === "met" ? "note" : "ask",
      ["vein.far-reading", "vein.per-centimetre-sd"],
      {
        nearestCm: Math.abs(point.nearestStation.atCm - point.atCm),
        sdMm: point.sdMm,
      },
    ),
  ];
}
