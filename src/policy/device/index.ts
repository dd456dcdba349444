import type { DeviceRule } from "../../core/device-choice/index.ts";
import type { PolicyRow } from "../../core/reason/index.ts";
import { childRules } from "./child-rules.ts";
import { situationRules } from "./situation-rules.ts";
import { stopRules } from "./stop-rules.ts";
import { usualRules } from "./usual-rules.ts";

const all = [...usualRules, ...situationRules, ...stopRules, ...childRules];

/** Every rule of device choice, as data. */
export const deviceRules: readonly DeviceRule[] = all.map(({ rule }) => rule);

export type DeviceRuleKey = `device-rule.${string}`;

/** One row a rule: true while it is in force here. */
export const deviceRuleRows: Readonly<Record<DeviceRuleKey, PolicyRow<boolean>>> = Object.fromEntries(
  all.map(({ rule, row }) => [`device-rule.${rule.id}`, row]),
);
