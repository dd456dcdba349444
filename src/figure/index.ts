export * from "./figure.ts";
export * from "./arm-strip.ts";
export * from "./vein-section.ts";
export * from "./paper-strip.ts";
export * from "./arm-pose.ts";
export * from "./body-outline.ts";
