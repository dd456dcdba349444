export { flowSection, type FlowSectionInput } from "./flow-section.ts";
export { flowCurve, type FlowCurveInput } from "./flow-curve.ts";
