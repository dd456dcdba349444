import type { Side } from "../../core/arm/index.ts";
import type { PlanAnswer, PlanInput, PlanPolicy } from "../../core/line-plan/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { armWords, veinName } from "../../language/index.ts";
import type { Figure } from "../plate/index.ts";
import type { ArmStripInput } from "./arm-strip-input.ts";
import { armStrip } from "./arm-strip.ts";

/** The plate of a plan's chosen arm, or of a side that is asked for; undefined while the arm has no length. */
export function armStripFromPlan(
  input: PlanInput,
  answer: PlanAnswer,
  policy: PlanPolicy,
  how: Pick<ArmStripInput, "id" | "width" | "interactive" | "ink" | "depthRoom"> & { readonly side?: Side },
): Figure | undefined {
  const { side: asked, ...drawn } = how;
  const side = asked ?? answer.chosen?.side;
  if (side === undefined) return undefined;
  const arm = input.arms[side];
  if (isMissing(arm.armLengthCm)) return undefined;
  const chosen = answer.chosen?.side === side ? answer.chosen : undefined;
  const vein = chosen?.vein ?? arm.surveys[0]?.vein;
  return armStrip({
    ...drawn,
    side,
    armLengthCm: arm.armLengthCm,
    armWords: armWords(side),
    veinWords: vein === undefined ? "" : (veinName[vein] ?? vein),
    survey: arm.surveys.find((survey) => survey.vein === vein),
    chosen,
    allowed: chosen ? answer.allowed : undefined,
    policy,
    pastLines: arm.pastLines,
    alternatives: answer.alternatives,
  });
}
