export * from "./row.ts";
export * from "./row-fits.ts";
export * from "./policy-table.ts";
export * from "./plan-policy.ts";
export * from "./expiry-limits.ts";
export * from "./need-policy.ts";
export * from "./infusate-list.ts";
export { deviceRules, ruleOrigin, whyOfRule } from "./device/index.ts";
export * from "./complication-table.ts";
