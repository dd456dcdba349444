export * from "./doubtful-baseline.ts";
export * from "./missing-ends.ts";
export * from "./small-sample.ts";
export * from "./sparse-guards.ts";
