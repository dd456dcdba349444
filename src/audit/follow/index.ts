export { timeToEvent, type FollowedLines } from "./time-to-event.ts";
export { curvesOf, type Curve, type CurvePoint, type Curves } from "./curves.ts";
export { hazardModel, type HazardAnswer, type HazardModel, type HazardRatio } from "./hazard-model.ts";
export { lineStates, type LineState, type LineStates, type StatesDay } from "./line-states.ts";
export { FACTOR_NAMES, type FactorName } from "./factors.ts";
export { rateModel, type RateAnswer, type RateModel } from "./rate-model.ts";
