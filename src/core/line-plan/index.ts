export * from "./plan-input.ts";
export * from "./plan-policy.ts";
export * from "./plan-answer.ts";
