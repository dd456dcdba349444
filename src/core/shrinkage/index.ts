export { posterior, shrinkRates, type ShrunkRate, type ShrunkRates, type UnitCounts } from "./gamma-poisson.ts";
export { binomialFunnel, overdispersion, poissonFunnel, type Overdispersion } from "./funnel.ts";
export { smoothRates, type SmoothRate, type SmoothRates } from "./smooth-rates.ts";
export { fullBayesRates, type FullBayesRates, type SpreadPrior } from "./full-bayes.ts";
