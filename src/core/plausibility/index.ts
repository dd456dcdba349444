export * from "./plausible-limits.ts";
export * from "./weight-questions.ts";
export * from "./arm-questions.ts";
export * from "./vein-questions.ts";
