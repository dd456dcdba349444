import { judgeRatio, outsideDiameter } from "../catheter/index.ts";
import { isAsk, isStop, type Finding } from "../reason/index.ts";
import { quietOtherArm } from "./arm-standing.ts";
import { judgeNeed } from "./need.ts";
import type { AllowedInterval, Candidate, PlanAnswer, ShelfJudgement } from "./plan-answer.ts";
import type { Scene } from "./scene.ts";

/** Everything the plan does not look at; src/language says each one. */
const NOT_CONSIDERED = [
  "drugs beyond the stated need",
  "clot or narrowing above the arm",
  "the tip",
  "bleeding, bacteria in the blood, kidney function",
  "whether a line is right at all",
  "your hands and the room",
] as const;

/** An answer that names no place: something is missing, or a stop stands. */
export function withoutPlace(findings: readonly Finding[]): PlanAnswer {
  return {
    outcome: findings.some(isStop) ? "refused" : "ask",
    chosen: undefined,
    tied: [],
    allowed: undefined,
    alternatives: [],
    shelf: [],
    findings,
    emptiedBy: undefined,
    offers: [],
    notConsidered: NOT_CONSIDERED,
  };
}

/** An answer that names a place, with the whole shelf held against the vein there. */
export function answerWith(
  scene: Scene,
  findings: readonly Finding[],
  chosen: Candidate,
  allowed: AllowedInterval | undefined,
  others: Pick<PlanAnswer, "tied" | "alternatives">,
): PlanAnswer {
  const told = quietOtherArm(findings, chosen.side);
  const refused = chosen.standing === "refused" || told.some(isStop);
  const asks = chosen.standing === "ask" || told.some(isAsk);
  return {
    ...others,
    outcome: refused ? "refused" : asks ? "ask" : "planned",
    chosen,
    allowed,
    shelf: shelfAt(scene, chosen),
    findings: told,
    emptiedBy: undefined,
    offers: [],
    notConsidered: NOT_CONSIDERED,
  };
}

/** Every catheter of the whole shelf held against the vein at the chosen entry, at every mark. */
function shelfAt(scene: Scene, chosen: Candidate): readonly ShelfJudgement[] {
  const { policy } = scene;
  const limits = [...new Set([...policy.ratioMarks, policy.ratioLimit])].sort((a, b) => a - b);
  return scene.input.shelf.map((catheter) => {
    const outsideDiameterMm = outsideDiameter(catheter);
    const vein = { outsideDiameterMm, diameterMm: chosen.diameterMm, sdMm: chosen.diameterSdMm };
    return {
      catheterId: catheter.id,
      outsideDiameterMm,
      marks: limits.map((limit) => ({
        ...judgeRatio(vein, { limit, chanceMet: policy.chanceMet, chanceNotMet: policy.chanceNotMet }),
        limit,
      })),
      carriesNeed: judgeNeed(catheter, scene.input.need).carries,
    };
  });
}
