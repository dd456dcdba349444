export {
  chanceOfEventsToCome,
  chanceRateAbove,
  posterior,
  shrinkRates,
  shrunkRateLimits,
  type ShrunkRate,
  type ShrunkRates,
  type UnitCounts,
} from "./gamma-poisson.ts";
export { binomialFunnel, overdispersion, poissonFunnel, type Overdispersion } from "./funnel.ts";
export { smoothRates, type SmoothRate, type SmoothRates } from "./smooth-rates.ts";
export { fullBayesRates, type DoubtfulRate, type FullBayesRates, type SpreadPrior } from "./full-bayes.ts";
export {
  chanceShareAbove,
  posteriorShare,
  shrinkShares,
  shrunkShareLimits,
  type ShrunkShare,
  type ShrunkShares,
  type UnitShares,
} from "./beta-binomial.ts";
export {
  falseDiscoveryChances,
  falseFlagsExpected,
  targetScore,
  targetWithout,
  widenedScore,
  type FunnelScore,
} from "./unit-against-target.ts";
export { rankChances, type RankChances } from "./rank-chances.ts";
export { limitsAmong, limitsWidened, tailsAmong, tailsWidened, type TailLimits } from "./exact-funnel.ts";
