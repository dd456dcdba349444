import { SIDES, thirdsOf, veinProfile, type Side } from "../../src/core/arm/index.ts";
import { outsideDiameter } from "../../src/core/catheter/index.ts";
import {
  judgeCandidate,
  judgeNeed,
  type Candidate,
  type PlanInput,
  type PlanPolicy,
} from "../../src/core/line-plan/index.ts";
import { isMissing } from "../../src/core/missing/index.ts";
import { centimetre } from "../../src/core/quantity/index.ts";

/**
 * The planner a person would write on a Sunday: build every candidate in full, throw away the refused, sort the rest.
 * Adults with identity, age, weight, lumens and bars known; it shares `judgeCandidate` with the program and nothing else.
 */
export function slowPlan(input: PlanInput, policy: PlanPolicy): Candidate | undefined {
  const { weightKg } = input.patient;
  if (isMissing(weightKg)) throw new Error("the slow planner wants a weight");
  const candidates: Candidate[] = [];
  for (const side of SIDES) {
    const arm = input.arms[side];
    if (
      isMissing(arm.bars) ||
      isMissing(arm.armLengthCm) ||
      arm.bars.some((bar) => policy.armBars[bar] === "bar") ||
      arm.surveys.some(({ stations }) => stations.some(({ thrombus }) => thrombus === true))
    )
      continue;
    for (const survey of arm.surveys) {
      for (const stretch of veinProfile(survey).stretches) {
        for (let tenths = 0; tenths <= 600; tenths += 1) {
          const at = tenths / 10;
          const lone = stretch.from === stretch.to;
          if (lone ? stretch.from.atCm !== at : !(stretch.from.atCm < at && at < stretch.to.atCm)) continue;
          for (const angleDegree of policy.anglesDegree) {
            for (const catheter of input.shelf) {
              if (judgeNeed(catheter, input.need).carries === "no") continue;
              const place = {
                side,
                vein: survey.vein,
                thirds: thirdsOf(arm.armLengthCm),
                stretch,
                veinEntryCm: centimetre(at),
                angleDegree,
                catheter,
              };
              candidates.push(judgeCandidate(place, { need: input.need, weightKg, ageGroup: "adult" }, policy));
            }
          }
        }
      }
    }
  }
  const lumensOf = new Map(input.shelf.map((catheter) => [catheter.id, catheter.lumens]));
  const outsideOf = new Map(input.shelf.map((catheter) => [catheter.id, outsideDiameter(catheter)]));
  const reasons = (side: Side): number => {
    const { bars } = input.arms[side];
    if (isMissing(bars)) return 9;
    return bars.some((bar) => policy.armBars[bar] === "strong") ? 2 : bars.length > 0 ? 1 : 0;
  };
  const order = (c: Candidate): number[] => [
    c.findings.some(({ level, code }) => level === "ask" && code !== "tunnel-needed") || reasons(c.side) >= 2 ? 1 : 0,
    c.tunnel ? 1 : 0,
    reasons(c.side),
    c.side === input.patient.dominantArm ? 1 : 0,
    policy.veinOrder.indexOf(c.vein),
    c.armBand === "preferred half" ? 0 : c.armBand === "lower half of the middle third" ? 1 : 2,
    lumensOf.get(c.catheterId) ?? 99,
    outsideOf.get(c.catheterId) ?? 99,
    c.measured ? 0 : 1,
    c.depthMm,
  ];
  return candidates
    .filter((candidate) => candidate.standing !== "refused")
    .map((candidate) => ({ candidate, key: order(candidate) }))
    .sort((a, b) => {
      const place = a.key.findIndex((value, index) => value !== b.key[index]);
      return place === -1 ? 0 : (a.key[place] as number) - (b.key[place] as number);
    })[0]?.candidate;
}
