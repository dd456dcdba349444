import { lookAlikeReasons } from "../../core/identity/index.ts";
import { lookAlikeSentence } from "../../language/index.ts";
import type { PlanState } from "../../register/index.ts";

/** Another patient on this device who could be taken for this one, by name and number. */
export function lookAlikes(state: PlanState, all: ReadonlyMap<string, PlanState>): string | undefined {
  const who = (one: PlanState) => ({
    name: one.fields["patient.name"] ?? "",
    identifier: one.fields["patient.identifier"] ?? "",
    bornOn: one.fields["patient.bornOn"] ?? "",
  });
  for (const other of all.values()) {
    if (other.planId === state.planId || other.voided !== undefined) continue;
    const reasons = lookAlikeReasons(who(state), who(other));
    if (reasons.length > 0) return lookAlikeSentence(who(other), reasons);
  }
  return undefined;
}
