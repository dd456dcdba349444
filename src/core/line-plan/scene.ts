import {
  veinProfile,
  type Station,
  type Stretch,
  type Thirds,
  type VeinProfile,
  type VeinSurvey,
} from "../arm/index.ts";
import { outsideDiameter, type StockCatheter } from "../catheter/index.ts";
import type { Kilogram } from "../quantity/index.ts";
import type { AgeGroup } from "../age/index.ts";
import type { ArmStanding } from "./arm-standing.ts";
import { largestFrenchFor } from "./catheter-findings.ts";
import { judgeCandidate } from "./judge-candidate.ts";
import { judgeNeed } from "./need.ts";
import type { Candidate } from "./plan-answer.ts";
import { passesBeyond } from "./place-verdict.ts";
import type { PlanInput } from "./plan-input.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import type { RankedPlace } from "./rank.ts";
import { chanceCuts, scanStretch, type ChanceCuts, type ScanCatheter, type ScanPlace } from "./scan-stretch.ts";

/**
 * Scans already made, by the two stations a stretch runs between: moving one reading leaves every other stretch as it was.
 * The shelf and policy they were made for stand beside them; when either changes the whole memo starts afresh.
 */
export interface ScanMemo {
  shelf: readonly ScanCatheter[];
  policy: PlanPolicy | undefined;
  ratioLimit: number;
  stretches: WeakMap<Station, WeakMap<Station, KeptScan>>;
  veins: WeakMap<VeinProfile, KeptVein>;
  /** Profiles by their survey; they depend on nothing else. */
  readonly profiles: WeakMap<VeinSurvey, VeinProfile>;
}

interface KeptVein {
  readonly armLengthCm: number;
  readonly places: readonly ScanPlace[];
}

interface KeptScan {
  readonly armLengthCm: number;
  /** How many of the shelf pass every place further on; it may change while the stretch itself does not. */
  readonly passing: number;
  readonly places: readonly ScanPlace[];
}

export const emptyMemo = (): ScanMemo => ({
  shelf: [],
  policy: undefined,
  ratioLimit: 0,
  stretches: new WeakMap(),
  veins: new WeakMap(),
  profiles: new WeakMap(),
});

/** The profile of a survey, drawn once. */
export function profileOf(survey: VeinSurvey, memo: ScanMemo): VeinProfile {
  const kept = memo.profiles.get(survey) ?? veinProfile(survey);
  memo.profiles.set(survey, kept);
  return kept;
}

/** Starts the memo afresh unless it was made for this very shelf, policy and limit. */
function fitted(memo: ScanMemo, shelf: readonly ScanCatheter[], policy: PlanPolicy, ratioLimit: number): ScanMemo {
  const same =
    memo.policy === policy &&
    memo.ratioLimit === ratioLimit &&
    memo.shelf.length === shelf.length &&
    memo.shelf.every((kept, index) => {
      const now = shelf[index] as ScanCatheter;
      return (
        kept.id === now.id &&
        kept.grade === now.grade &&
        kept.outsideDiameterMm === now.outsideDiameterMm &&
        kept.lumens === now.lumens
      );
    });
  if (!same) Object.assign(memo, { shelf, policy, ratioLimit, stretches: new WeakMap(), veins: new WeakMap() });
  return memo;
}

/** One patient, one moment, one policy: what every step of the plan reads. */
export interface Scene {
  readonly input: PlanInput;
  /** The policy with the patient's own ratio limit in force. */
  readonly policy: PlanPolicy;
  readonly cuts: ChanceCuts;
  readonly group: AgeGroup;
  readonly weightKg: Kilogram;
  readonly arms: readonly ArmStanding[];
  readonly catheters: readonly StockCatheter[];
  readonly shelf: readonly ScanCatheter[];
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
    cuts: chanceCuts(policy),
    group,
    weightKg,
    arms,
    catheters: carrying.map(({ catheter }) => catheter),
    shelf,
    memo: fitted(memo, shelf, givenPolicy, policy.ratioLimit),
  };
}

/** The best places of one vein, stretch by stretch, gathered anew only when the vein or the arm's length has changed. */
export function scannedVein(scene: Scene, thirds: Thirds, profile: VeinProfile): readonly ScanPlace[] {
  const kept = scene.memo.veins.get(profile);
  if (kept?.armLengthCm === thirds.armLengthCm) return kept.places;
  const places = profile.stretches.flatMap((stretch) => scanned(scene, thirds, stretch));
  scene.memo.veins.set(profile, { armLengthCm: thirds.armLengthCm, places });
  return places;
}

/** The best places of one stretch, scanned anew only when something it depends on has changed. */
function scanned(scene: Scene, thirds: Thirds, stretch: Stretch): readonly ScanPlace[] {
  const { stretches } = scene.memo;
  const row = stretches.get(stretch.from) ?? new WeakMap<Station, KeptScan>();
  const kept = row.get(stretch.to);
  const widest = passesBeyond(stretch, scene.policy, scene.cuts.metZ);
  const passing = scene.shelf.reduce(
    (count, { outsideDiameterMm }) => count + (outsideDiameterMm <= widest ? 1 : 0),
    0,
  );
  if (kept?.armLengthCm === thirds.armLengthCm && kept.passing === passing) return kept.places;
  const places = scanStretch(stretch, thirds, scene.shelf, scene.policy, scene.cuts);
  row.set(stretch.to, { armLengthCm: thirds.armLengthCm, passing, places });
  stretches.set(stretch.from, row);
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
