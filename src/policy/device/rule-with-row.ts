import type { DeviceRule } from "../../core/device-choice/index.ts";
import type { PolicyRow } from "../../core/reason/index.ts";
import { row, type Provenance } from "../row.ts";

/** A rule and the row that says why, from where and whether it is in force here. */
export interface RuleWithRow {
  readonly rule: DeviceRule;
  readonly row: PolicyRow<boolean>;
}

/** A rule's origin: no rule is built without a source, the place in it and how it is known. */
export interface RuleOrigin extends Provenance {
  readonly place: string;
}

/** The panel of 2015 on adults in hospital. */
export const panel2015 = (place: string): RuleOrigin => ({
  source: "Chopra V and others 2015, Ann Intern Med 163(6 suppl):S1",
  place,
  howKnown: "published",
});
/** The same panel where the inner tables were recalled and not read. */
export const panel2015Recalled = (place: string): RuleOrigin => ({ ...panel2015(place), howKnown: "from memory" });
/** The panel of 2025 on adults with cancer. */
export const cancerPanel2025 = (place: string): RuleOrigin => ({
  source: "Panel on intravenous catheters in adults with cancer 2025, Ann Intern Med, 4 November",
  place,
  howKnown: "published",
});
/** The panel of 2020 on children. */
export const childPanel2020 = (place: string): RuleOrigin => ({
  source: "Ullman AJ and others 2020, Pediatrics 145(suppl 3):S269",
  place,
  howKnown: "published",
});
export const trade: RuleOrigin = { source: "no source", place: "common practice", howKnown: "common practice" };

export function rule(
  id: string,
  parts: Omit<DeviceRule, "id">,
  why: string,
  { source, place, howKnown, others }: RuleOrigin,
): RuleWithRow {
  return {
    rule: { id, ...parts },
    row: row<boolean>(true, "", why, { source, place, howKnown, ...(others ? { others } : {}) }),
  };
}
