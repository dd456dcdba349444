export * from "./en/number.ts";
export * from "./en/arm-bar.ts";
export * from "./en/finding.ts";
export * from "./en/answer.ts";
export * from "./en/fault.ts";
