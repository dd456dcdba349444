import { isMissing } from "../missing/index.ts";
import { millimetreToCentimetre } from "../quantity/index.ts";
import { isAsk, isStop, type Finding } from "../reason/index.ts";
import { ageGroupOf } from "../age/index.ts";
import { allowedAround, pointInside } from "./allowed-interval.ts";
import { answerWith, withoutPlace } from "./answer.ts";
import { armStandings, quietOtherArm, type ArmStanding } from "./arm-standing.ts";
import { needFindings, patientFindings, plausibilityFindings } from "./entry-findings.ts";
import { judgeFixed } from "./fixed-place.ts";
import { emptyingRule, offersWhenEmpty } from "./offers.ts";
import type { AllowedInterval, Candidate, PlanAnswer, PlanChoice } from "./plan-answer.ts";
import type { PlanInput } from "./plan-input.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import { compareKeys, isTie, rankingKey, type RankedPlace } from "./rank.ts";
import type { ScanCatheter } from "./scan-stretch.ts";
import { emptyMemo, judged, profileOf, sceneOf, scannedVein, type Scene, type ScanMemo } from "./scene.ts";

/** What of an entry is settled before any place is judged: findings, and the scene unless something is missing. */
function opening(
  input: PlanInput,
  policy: PlanPolicy,
  memo: ScanMemo,
): { readonly findings: Finding[]; readonly scene?: Scene } {
  const group = ageGroupOf(input.patient, policy);
  const arms = armStandings(input, policy, (survey) => profileOf(survey, memo));
  const findings: Finding[] = [
    ...patientFindings(input.patient, group),
    ...arms.flatMap((arm) => arm.findings),
    ...surveyFindings(arms),
    ...needFindings(input.need, policy),
    ...plausibilityFindings(input, group, policy),
  ];
  const { weightKg } = input.patient;
  if (!group || isMissing(weightKg) || isMissing(input.need.lumens) || findings.some(isStop)) return { findings };
  return { findings, scene: sceneOf(input, policy, group, weightKg, arms, memo) };
}

/**
 * Judges every arm x vein x entry x catheter x angle by the local policy and answers with one place, or with what is
 * missing, or with the rule that leaves nothing and what to try instead.
 * Holds: one patient, one moment, the readings given. Never chooses a size or site while what it needs is missing.
 */
export function planLine(input: PlanInput, policy: PlanPolicy, memo: ScanMemo = emptyMemo()): PlanAnswer {
  const { findings, scene } = opening(input, policy, memo);
  if (!scene) return withoutPlace(findings);
  if (scene.shelf.length === 0) {
    const values = { need: isMissing(input.need.lumens) ? 0 : input.need.lumens };
    findings.push({ code: "no-catheter-carries-need", verdict: "not met", level: "stop", values, policy: [] });
    const offers = [{ kind: "another kind of device" }] as const;
    return { ...withoutPlace(findings), emptiedBy: "no-catheter-carries-need", offers };
  }
  return input.fixedPlace ? judgeFixed(scene, findings) : choose(scene, findings);
}

/** The choice alone, for asking many times what would change it: no point aimed for, no words, no comparison. */
export function planChoice(input: PlanInput, policy: PlanPolicy, memo: ScanMemo): PlanChoice {
  const { findings, scene } = opening(input, policy, memo);
  const best = scene && scene.shelf.length > 0 ? first(places(scene)) : undefined;
  if (!scene || !best) return { outcome: findings.some(isStop) || scene ? "refused" : "ask" };
  const asks = best.place.grade > 0 || best.place.tunnelled || quietOtherArm(findings, best.arm.side).some(isAsk);
  return {
    outcome: asks ? "ask" : "planned",
    side: best.arm.side,
    vein: best.vein,
    catheterId: best.catheter.id,
    tunnelled: best.place.tunnelled,
  };
}

function surveyFindings(arms: readonly ArmStanding[]): readonly Finding[] {
  const open = arms.filter((arm) => !arm.barred);
  const surveyed = open.some((arm) => arm.profiles.some((profile) => profile.stretches.length > 0));
  if (surveyed || open.length === 0) return [];
  return [
    {
      code: "survey-missing",
      verdict: "not known",
      level: "ask",
      values: { side: (open[0] as ArmStanding).side },
      policy: [],
      path: "arms",
    },
  ];
}

const first = (all: readonly Keyed[]): RankedPlace | undefined =>
  all.reduce<Keyed | undefined>((best, one) => (best && compareKeys(best.key, one.key) <= 0 ? best : one), undefined)
    ?.place;

interface Keyed {
  readonly place: RankedPlace;
  readonly key: readonly number[];
}

/** Every catheter's best place in every stretch of every usable vein. */
function places(scene: Scene): readonly Keyed[] {
  const all: Keyed[] = [];
  for (const arm of scene.arms) {
    if (!arm.usable || !arm.thirds) continue;
    for (const profile of arm.profiles) {
      for (const found of scannedVein(scene, arm.thirds, profile)) {
        const catheter = scene.shelf[found.catheterIndex] as ScanCatheter;
        const place: RankedPlace = { arm, profile, vein: profile.survey.vein, catheter, place: found };
        all.push({ place, key: rankingKey(place, scene.policy.veinOrder) });
      }
    }
  }
  return all;
}

function choose(scene: Scene, findings: Finding[]): PlanAnswer {
  const ranked = [...places(scene)].sort((a, b) => compareKeys(a.key, b.key));
  const best = ranked[0];
  if (!best) return nothingFits(scene, findings);

  const chosen = aimed(scene, best.place);
  const rivals = ranked.filter(({ place }) => place.arm.side !== best.place.arm.side && place.vein === best.place.vein);
  const tied = rivals
    .filter(({ key }) => isTie(key, best.key))
    .slice(0, 1)
    .map(({ place }) => aimed(scene, place).candidate);
  if (tied.length > 0) findings.push({ code: "arms-tie", verdict: "met", level: "note", values: {}, policy: [] });
  const alternatives = twoBestOfEach(
    ranked.map(({ place }) => place),
    best.place,
  ).map((place) => aimed(scene, place).candidate);
  return answerWith(scene, findings, chosen.candidate, chosen.interval, { tied, alternatives });
}

/** The two best catheters of every arm and vein, each at its best place, best first, the chosen one left out. */
function twoBestOfEach(ranked: readonly RankedPlace[], chosen: RankedPlace): readonly RankedPlace[] {
  const kept = new Map<string, Set<string>>();
  return ranked.filter((place) => {
    const kind = `${place.arm.side} ${place.vein}`;
    const catheters = kept.get(kind) ?? new Set();
    if (catheters.size === 2 || catheters.has(place.catheter.id)) return false;
    kept.set(kind, catheters.add(place.catheter.id));
    return place !== chosen;
  });
}

/** A ranked place as a judged candidate, moved off the edges of its allowed interval where that costs nothing. */
function aimed(
  scene: Scene,
  ranked: RankedPlace,
): { readonly candidate: Candidate; readonly interval: AllowedInterval } {
  const { interval, entries } = allowedAround(
    ranked.profile,
    ranked.arm.thirds as NonNullable<ArmStanding["thirds"]>,
    ranked.catheter,
    ranked.place,
    scene.policy,
    scene.cuts,
  );
  const aim = pointInside(interval, ranked.place.veinEntryCm, millimetreToCentimetre(scene.policy.tapeErrorMm));
  const nearest = entries.reduce((a, b) => (Math.abs(b.atCm - aim) < Math.abs(a.atCm - aim) ? b : a));
  return { candidate: judged(scene, ranked, nearest.stretch, nearest.atCm), interval };
}

function nothingFits(scene: Scene, findings: Finding[]): PlanAnswer {
  if (
    findings.some(isAsk) &&
    !scene.arms.some((arm) => arm.usable && arm.profiles.some(({ stretches }) => stretches.length > 0))
  ) {
    return withoutPlace(findings);
  }
  const emptiedBy = emptyingRule(scene.arms, scene.shelf, scene.policy, scene.cuts) ?? "survey-missing";
  const stop: Finding = { code: "nothing-fits", verdict: "not met", level: "stop", values: { emptiedBy }, policy: [] };
  const offers = offersWhenEmpty(scene.arms, scene.shelf, scene.policy, scene.cuts);
  return { ...withoutPlace([...findings, stop]), emptiedBy, offers };
}
