export { audit } from "./audit.ts";
export { isNear, type AuditRules } from "./part.ts";
export type { AuditReport, Figure, IntervalName, Period } from "./figure.ts";
export { ageBand, NOT_KNOWN, PRIVATE_STRATA, STRATA, stratumOf, type StratumName } from "./stratum.ts";
export { countEvents, counts, type CountedEvent } from "./event-count.ts";
export { firstOfMonth, lastDay, lastTwelveMonths, periodOf } from "./period.ts";
export { figuresForOutside, type OutsideFigure, type OutsideReport } from "./outside.ts";
export { directionOf, type Direction } from "./direction.ts";
