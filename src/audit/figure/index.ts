export { audit } from "./audit.ts";
export { isNear, type AuditRules } from "./scene.ts";
export { dayCounter } from "./count-days.ts";
export { countedEvents } from "./count-packed-events.ts";
export type { AuditReport, Figure, IntervalName, Period } from "./figure.ts";
export { ageBand, PRIVATE_STRATA, STRATA, stratumOf, type StratumName } from "./stratum.ts";
export { countEvents, counts, type CountedEvent } from "./event-count.ts";
export { firstOfMonth, lastDay, lastTwelveMonths, periodOf } from "./period.ts";
export { figuresForOutside, type OutsideFigure, type OutsideReport } from "./outside.ts";
