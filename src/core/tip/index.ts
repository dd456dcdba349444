export * from "./tip-policy.ts";
export * from "./film-correction.ts";
export * from "./junction-target.ts";
export * from "./tip-estimate.ts";
export * from "./tip-place.ts";
export * from "./outside-answer.ts";
export * from "./arm-movement.ts";
export * from "./two-readers.ts";
