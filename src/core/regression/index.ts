export type { Covariate } from "./fit/covariate.ts";
export type { Coefficient, CoefficientTest, Unfitted } from "./fit/answer.ts";
export { coxRegression, firthCox, logRelativeHazard, type CoxFit, type CoxInput } from "./cox/cox.ts";
export type { EventTimes } from "./cox/risk-sets.ts";
export type { Ties } from "./cox/sweep.ts";
export type { ProportionalHazards, TimeScale } from "./cox/proportional-hazards.ts";
export type { CumulativeHazard } from "./cox/cumulative-hazard.ts";
export type { CountInput } from "./count/count-rows.ts";
export type { CountFit } from "./count/count-fit.ts";
export { firthPoisson, poissonRegression } from "./count/poisson.ts";
export { firthLogistic, logisticRegression, type OutcomeInput } from "./count/logistic.ts";
export {
  negativeBinomialRegression,
  type NegativeBinomialFit,
  type NoExcessSpread,
} from "./count/negative-binomial.ts";
export {
  eventsForPower,
  eventsPerParameter,
  largestRSquared,
  peopleForPrediction,
  type EventLimits,
} from "./guard/sparse.ts";
export { fineGray, type FineGrayFit, type FineGrayInput } from "./subdistribution/fine-gray.ts";
