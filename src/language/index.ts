export * from "./en/number.ts";
export * from "./en/arm-bar.ts";
export * from "./en/finding.ts";
export * from "./en/answer.ts";
export * from "./en/fault.ts";
export * from "./en/identity.ts";
export * from "./en/self-test.ts";
export * from "./en/number-words.ts";
