import { isMissing } from "../../core/missing/index.ts";
import { planPolicyFrom, type LocalPolicy } from "../../policy/index.ts";
import type { PlanState } from "../../register/index.ts";
import { readPlan } from "../plan/plan-reading.ts";
import type { FlowStart } from "./flow-page.tsx";

/** The vein and catheter of a plan, as the flow page starts from them; undefined while the plan has chosen nothing. */
export function flowStartOf(state: PlanState, policy: LocalPolicy): FlowStart | undefined {
  const { input, plan } = readPlan(state.fields, planPolicyFrom(policy.table));
  const chosen = plan?.answer.chosen;
  if (!input || !chosen || isMissing(chosen.diameterMm)) return undefined;
  return {
    diameterMm: chosen.diameterMm,
    sdMm: chosen.diameterSdMm,
    outsideDiameterMm: chosen.outsideDiameterMm,
    lumens: input.shelf.find(({ id }) => id === chosen.catheterId)?.lumens ?? 1,
  };
}
