export { wardFunnel, type FunnelLimits, type WardFunnel, type WardPoint } from "./ward-funnel.ts";
export { countedWardMonths } from "./counted-ward-months.ts";
export { wardUse, type WardRate, type WardsUse, type WardUse } from "./ward-use.ts";
