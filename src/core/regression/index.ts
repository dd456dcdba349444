export type { Covariate } from "./fit/covariate.ts";
export type { Coefficient, CoefficientTest, Unfitted } from "./fit/answer.ts";
export { coxRegression, firthCox, logRelativeHazard, type CoxFit, type CoxInput } from "./cox/cox.ts";
export type { EventTimes } from "./cox/risk-sets.ts";
export type { Ties } from "./cox/sweep.ts";
export type { ProportionalHazards, TimeScale } from "./cox/proportional-hazards.ts";
export type { CumulativeHazard } from "./cox/cumulative-hazard.ts";
