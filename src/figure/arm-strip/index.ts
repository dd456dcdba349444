export type { ArmStripInput } from "./arm-strip-input.ts";
export { armStripFromPlan } from "./arm-strip-from-plan.ts";
