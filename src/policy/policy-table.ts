import type { PolicyRow, PolicyValue } from "../core/reason/index.ts";
import { armBarRows } from "./arm-bar-rows.ts";
import { careRows } from "./care-rows.ts";
import { complicationRows } from "./complication-rows.ts";
import { countRows } from "./count-rows.ts";
import { deviceRuleRows } from "./device/index.ts";
import { expiryRows } from "./expiry-rows.ts";
import { flowRows } from "./flow-rows.ts";
import { needRows } from "./need-rows.ts";
import { planRows } from "./plan-rows.ts";
import { plausibilityRows } from "./plausibility-rows.ts";
import { tipMovementRows } from "./tip-movement-rows.ts";
import { qualityRows } from "./quality-rows.ts";
import { paperRows } from "./paper-rows.ts";
import { spreadsheetRows } from "./spreadsheet-rows.ts";
import { releaseRows, tipRows } from "./tip-rows.ts";

/** The one table of every limit. A topic adds its rows here, and the page, the paper and the export all show them. */
export const defaultPolicyTable = {
  ...planRows,
  ...plausibilityRows,
  ...expiryRows,
  ...armBarRows,
  ...needRows,
  ...flowRows,
  ...deviceRuleRows,
  ...tipRows,
  ...releaseRows,
  ...careRows,
  ...complicationRows,
  ...tipMovementRows,
  ...countRows,
  ...spreadsheetRows,
  ...qualityRows,
  ...paperRows,
};

export type PolicyKey = keyof typeof defaultPolicyTable;
export type PolicyTable = { readonly [Key in PolicyKey]: PolicyRow<(typeof defaultPolicyTable)[Key]["value"]> };

export interface LocalPolicy {
  readonly table: PolicyTable;
  /** Eight hexadecimal digits over every value: two places with the same limits print the same version. */
  readonly version: string;
}

/** 32-bit FNV-1a over the values in key order. A fingerprint to tell tables apart on paper, not a seal. */
export function policyVersion(table: PolicyTable): string {
  let hash = 0x811c9dc5;
  const entries = Object.entries(table as Record<string, PolicyRow>).sort(([a], [b]) => (a < b ? -1 : 1));
  for (const [key, { value }] of entries) {
    for (const character of `${key}=${JSON.stringify(value)};`) {
      hash ^= character.codePointAt(0) as number;
      hash = Math.imul(hash, 0x01000193) >>> 0;
    }
  }
  return hash.toString(16).padStart(8, "0");
}

export const localPolicy = (table: PolicyTable): LocalPolicy => ({ table, version: policyVersion(table) });
export const defaultPolicy: LocalPolicy = localPolicy(defaultPolicyTable);

/** Every value of a table by its row: what a plan keeps of the policy it was made under. */
export const policyValues = (table: PolicyTable): Readonly<Record<string, PolicyValue>> =>
  Object.fromEntries(Object.entries(table as Record<string, PolicyRow>).map(([key, { value }]) => [key, value]));

/** A table with the values a plan kept; rows that came later keep today's value. */
export function tableWithValues(table: PolicyTable, values: Readonly<Record<string, PolicyValue>>): PolicyTable {
  const rows = Object.entries(table as Record<string, PolicyRow>).map(([key, row]) => [
    key,
    key in values ? { ...row, value: values[key] } : row,
  ]);
  return Object.fromEntries(rows) as PolicyTable;
}
