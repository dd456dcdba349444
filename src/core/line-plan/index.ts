export * from "./plan-input.ts";
export * from "./plan-policy.ts";
export * from "./plan-answer.ts";
export * from "./age-group.ts";
export { planLine } from "./plan-line.ts";
export type { ScanMemo } from "./scene.ts";
export { judgeCandidate, largestFrenchFor } from "./judge-candidate.ts";
export { judgeNeed } from "./need.ts";
export { validOverride } from "./arm-standing.ts";
