import type { Stretch, VeinProfile, VeinSurvey } from "../arm/index.ts";
import { outsideDiameter, type StockCatheter } from "../catheter/index.ts";
import type { Kilogram } from "../quantity/index.ts";
import type { AgeGroup } from "./age-group.ts";
import type { ArmStanding } from "./arm-standing.ts";
import { judgeCandidate, largestFrenchFor } from "./judge-candidate.ts";
import { judgeNeed } from "./need.ts";
import type { Candidate } from "./plan-answer.ts";
import type { PlanInput } from "./plan-input.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import type { RankedPlace } from "./rank.ts";
import { chanceCuts, scanVein, type ChanceCuts, type ScanCatheter, type ScanPlace } from "./scan-vein.ts";

/** Scans already made, kept between plans that share a vein: moving one reading leaves seven veins as they were. */
export type ScanMemo = Map<
  VeinSurvey,
  { readonly key: string; readonly policy: PlanPolicy; readonly places: readonly ScanPlace[] }
>;

/** One patient, one moment, one policy: what every step of the plan reads. */
export interface Scene {
  readonly input: PlanInput;
  /** The policy with the patient's own ratio limit in force. */
  readonly policy: PlanPolicy;
  /** The policy as handed in; its identity tells the memo whether the limits changed. */
  readonly givenPolicy: PlanPolicy;
  readonly cuts: ChanceCuts;
  readonly group: AgeGroup;
  readonly weightKg: Kilogram;
  readonly arms: readonly ArmStanding[];
  readonly catheters: readonly StockCatheter[];
  readonly shelf: readonly ScanCatheter[];
  /** Everything of the shelf and the limit that a scan depends on. */
  readonly shelfKey: string;
  readonly memo: ScanMemo;
}

/** The policy with the ratio limit of the patient's own age group in force. */
function policyFor(policy: PlanPolicy, group: AgeGroup): PlanPolicy {
  if (group === "adult") return policy;
  return { ...policy, ratioLimit: group === "child" ? policy.ratioLimitChild : policy.ratioLimitNewborn };
}

export function sceneOf(
  input: PlanInput,
  givenPolicy: PlanPolicy,
  group: AgeGroup,
  weightKg: Kilogram,
  arms: readonly ArmStanding[],
  memo: ScanMemo,
): Scene {
  const policy = policyFor(givenPolicy, group);
  const largest = largestFrenchFor(weightKg, policy);
  const carrying = input.shelf
    .map((catheter) => ({ catheter, need: judgeNeed(catheter, input.need), outside: outsideDiameter(catheter) }))
    .filter(({ need }) => need.carries !== "no")
    .sort(
      (a, b) =>
        a.catheter.lumens - b.catheter.lumens || a.outside - b.outside || (a.catheter.id < b.catheter.id ? -1 : 1),
    );
  const shelf = carrying.map(({ catheter, need, outside }): ScanCatheter => ({
    id: catheter.id,
    outsideDiameterMm: outside,
    lumens: catheter.lumens,
    grade: need.open.length > 0 || catheter.nominalFrench > largest ? 1 : 0,
  }));
  return {
    input,
    policy,
    givenPolicy,
    cuts: chanceCuts(policy),
    group,
    weightKg,
    arms,
    catheters: carrying.map(({ catheter }) => catheter),
    shelf,
    shelfKey: `${shelf.map(({ id, grade, outsideDiameterMm }) => `${id}:${grade}:${outsideDiameterMm}`).join()}|${policy.ratioLimit}`,
    memo,
  };
}

/** The best places of one vein, scanned anew only when something it depends on has changed. */
export function scanned(scene: Scene, arm: ArmStanding, profile: VeinProfile): readonly ScanPlace[] {
  if (!arm.thirds) return [];
  const key = `${arm.thirds.armLengthCm}|${scene.shelfKey}`;
  const kept = scene.memo.get(profile.survey);
  if (kept?.key === key && kept.policy === scene.givenPolicy) return kept.places;
  const places = scanVein(profile, arm.thirds, scene.shelf, scene.policy, scene.cuts);
  scene.memo.set(profile.survey, { key, policy: scene.givenPolicy, places });
  return places;
}

/** A ranked place, with a point of its vein, judged by every rule. */
export function judged(
  scene: Scene,
  ranked: RankedPlace,
  stretch: Stretch,
  veinEntryCm: Candidate["veinEntryCm"],
): Candidate {
  return judgeCandidate(
    {
      side: ranked.arm.side,
      vein: ranked.vein,
      thirds: ranked.arm.thirds as NonNullable<ArmStanding["thirds"]>,
      stretch,
      veinEntryCm,
      angleDegree: ranked.place.angleDegree,
      catheter: scene.catheters[ranked.place.catheterIndex] as StockCatheter,
    },
    { need: scene.input.need, weightKg: scene.weightKg, ageGroup: scene.group },
    scene.policy,
  );
}
