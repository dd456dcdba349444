export { lookAlikeReasons, type Identified, type LookAlikeReason } from "./look-alike.ts";
export { slips } from "./slips.ts";
export * from "./freshness.ts";
