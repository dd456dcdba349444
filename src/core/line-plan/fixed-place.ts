import type { ArmStanding } from "./arm-standing.ts";
import { validOverride } from "./arm-standing.ts";
import { centimetre } from "../quantity/index.ts";
import { isStop, type Finding } from "../reason/index.ts";
import { answerWith, withoutPlace } from "./answer.ts";
import { standingOf } from "./judge-candidate.ts";
import type { Candidate, PlanAnswer } from "./plan-answer.ts";
import type { PlanInput } from "./plan-input.ts";
import { compareKeys, rankingKey, type RankedPlace } from "./rank.ts";
import { scanStretch, type ScanCatheter } from "./scan-stretch.ts";
import { judged, type Scene } from "./scene.ts";

/** A place a person fixed is judged as it stands, refused or not, so that the broken rule can be read. */
export function judgeFixed(scene: Scene, findings: Finding[]): PlanAnswer {
  const fixed = scene.input.fixedPlace as NonNullable<PlanInput["fixedPlace"]>;
  const arm = scene.arms.find(({ side }) => side === fixed.side) as ArmStanding;
  const profile = arm.profiles.find(({ survey }) => survey.vein === fixed.vein);
  const stretch = profile?.stretches.find(({ from, to }) =>
    from === to
      ? Math.abs(from.atCm - fixed.veinEntryCm) < 0.05
      : from.atCm < fixed.veinEntryCm && fixed.veinEntryCm < to.atCm,
  );
  if (!arm.usable || !arm.thirds || !profile || !stretch) {
    const values = { side: fixed.side, vein: fixed.vein, veinEntryCm: fixed.veinEntryCm };
    const level = arm.barred ? "stop" : "ask";
    return withoutPlace([
      ...findings,
      {
        code: arm.barred ? "fixed-arm-barred" : "fixed-place-not-measured",
        verdict: "not known",
        level,
        values,
        policy: [],
      },
    ]);
  }
  const atCm = stretch.from === stretch.to ? stretch.from.atCm : centimetre(fixed.veinEntryCm);
  const fixedScan = { atCm, angleDegree: fixed.angleDegree };
  const places = scanStretch(stretch, arm.thirds, scene.shelf, scene.policy, scene.cuts, fixedScan)
    .map((place): RankedPlace => ({
      profile,
      arm,
      vein: fixed.vein,
      catheter: scene.shelf[place.catheterIndex] as ScanCatheter,
      place,
    }))
    .filter(({ catheter }) => fixed.catheterId === undefined || catheter.id === fixed.catheterId)
    .map((place) => ({ place, key: rankingKey(place, scene.policy.veinOrder) }))
    .sort((a, b) => compareKeys(a.key, b.key));
  const best = places[0];
  if (!best) {
    return withoutPlace([
      ...findings,
      {
        code: "fixed-catheter-does-not-carry-need",
        verdict: "not met",
        level: "stop",
        values: { catheter: fixed.catheterId ?? "" },
        policy: [],
      },
    ]);
  }
  const candidate = plannedAgainst(judged(scene, best.place, stretch, atCm), scene.input.overrides);
  const alternatives = places.slice(1, 3).map(({ place }) => judged(scene, place, stretch, atCm));
  return answerWith(scene, findings, candidate, undefined, { tied: [], alternatives });
}

/** Stops that two named people have planned against become questions that print on every page. */
function plannedAgainst(candidate: Candidate, overrides: PlanInput["overrides"]): Candidate {
  const findings = candidate.findings.map((finding): Finding => {
    const override = isStop(finding) ? validOverride(overrides, candidate.side, finding.code) : undefined;
    if (!override) return finding;
    return {
      ...finding,
      level: "ask",
      values: { ...finding.values, plannedAgainst: true, typedReason: override.reason, names: override.names },
    };
  });
  return { ...candidate, findings, standing: standingOf(findings) };
}
