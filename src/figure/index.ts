export { GREY_INK, type Figure } from "./plate/index.ts";
export { armStripFromPlan } from "./arm-strip/index.ts";
export * from "./vein-section.ts";
export * from "./paper-strip.ts";
export * from "./arm-pose.ts";
export * from "./body-outline.ts";
export * from "./flow/index.ts";
export * from "./lumen-strip.ts";
export { lengthPlate, type LengthReading } from "./line/length-plate.ts";
