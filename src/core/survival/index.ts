export type { FollowUp } from "./risk/follow-up.ts";
export { ascendingOrder } from "./risk/order.ts";
export { numberAtRisk, riskTable, type RiskTable } from "./risk/risk-table.ts";
export {
  kaplanMeier,
  quantileTime,
  survivalAt,
  type QuantileTime,
  type SurvivalAt,
  type SurvivalCurve,
} from "./curve/kaplan-meier.ts";
export { incidenceLimits, type LimitScale, type TwoLimits } from "./curve/limits.ts";
export { restrictedMean, type RestrictedMean } from "./curve/restricted-mean.ts";
export {
  cumulativeIncidence,
  incidenceAt,
  type IncidenceAt,
  type IncidenceCurve,
} from "./curve/cumulative-incidence.ts";
export { occupationAt, type StateCurve, stateOccupation, type StateStays } from "./curve/state-occupation.ts";
export { logRank, PETO_PETO, type LogRankTest, type LogRankWeight } from "./comparison/log-rank.ts";
export { grayTest } from "./comparison/gray.ts";
export type { ChiSquare } from "./comparison/quadratic-form.ts";
