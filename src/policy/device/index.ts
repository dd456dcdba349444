import type { DeviceRule } from "../../core/device-choice/index.ts";
import type { PolicyRow } from "../../core/reason/index.ts";
import { cautionRules } from "./caution-rules.ts";
import { childRules } from "./child-rules.ts";
import { situationRules } from "./situation-rules.ts";
import { stopRules } from "./stop-rules.ts";
import { usualRules } from "./usual-rules.ts";

const all = [...usualRules, ...situationRules, ...stopRules, ...cautionRules, ...childRules];

/** Every rule of device choice, as data. */
export const deviceRules: readonly DeviceRule[] = all.map(({ rule }) => rule);

export type DeviceRuleKey = `device-rule.${string}`;

/** One row a rule: true while it is in force here. */
export const deviceRuleRows: Readonly<Record<DeviceRuleKey, PolicyRow<boolean>>> = Object.fromEntries(
  all.map(({ rule, row }) => [`device-rule.${rule.id}`, row]),
);

const byId = new Map(all.map(({ rule, row }) => [rule.id, row]));

/** Why a rule is there, in one plain sentence. */
export const whyOfRule = (id: string | undefined): string | undefined =>
  id === undefined ? undefined : byId.get(id)?.decides;

/** Where a rule comes from: source, place in it and how it is known, as it is printed beside every use. */
export function ruleOrigin(id: string | undefined): string {
  const row = id === undefined ? undefined : byId.get(id);
  if (!row) return "no rule";
  return row.howKnown === "common practice"
    ? "common practice, no source"
    : [row.source, row.place, row.howKnown === "from memory" ? "from memory" : undefined]
        .filter((part) => part !== undefined)
        .join("; ");
}
