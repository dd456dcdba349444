export * from "./log-gamma.ts";
export * from "./poisson-term.ts";
export * from "./incomplete-gamma.ts";
export * from "./incomplete-beta.ts";
export * from "./tail-solver.ts";
