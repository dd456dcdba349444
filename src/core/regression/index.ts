export type { Covariate } from "./fit/covariate.ts";
export type { Coefficient, CoefficientTest, Unfitted } from "./fit/answer.ts";
export { coxRegression, firthCox, logFCox, logRelativeHazard, type CoxFit, type CoxInput } from "./cox/cox.ts";
export { sharedFrailty, type FrailtyFit, type FrailtyInput } from "./cox/frailty.ts";
export type { EventTimes } from "./cox/risk-sets.ts";
export type { Ties } from "./cox/sweep.ts";
export type { ProportionalHazards, TimeScale } from "./cox/proportional-hazards.ts";
export type { Concordance } from "./cox/concordance.ts";
export type { CumulativeHazard } from "./cox/cumulative-hazard.ts";
export type { CountInput } from "./count/count-rows.ts";
export { mixedPoisson, type MixedPoissonFit, type NoSpread } from "./count/mixed-poisson.ts";
export type { CountFit } from "./count/count-fit.ts";
export { firthPoisson, logFPoisson, poissonRegression } from "./count/poisson.ts";
export { firthLogistic, logFLogistic, logisticRegression, type OutcomeInput } from "./count/logistic.ts";
export {
  negativeBinomialRegression,
  type NegativeBinomialFit,
  type NoExcessSpread,
} from "./count/negative-binomial.ts";
export {
  designEffect,
  eventsForPower,
  eventsPerParameter,
  largestRSquared,
  peopleForPrediction,
  type EventLimits,
} from "./guard/sparse.ts";
export { fineGray, type FineGrayFit, type FineGrayInput } from "./subdistribution/fine-gray.ts";
