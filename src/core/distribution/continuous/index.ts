export * from "./chi-square.ts";
export * from "./student-t.ts";
export * from "./f-ratio.ts";
