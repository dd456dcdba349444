export { wardFunnel, type FunnelLimits, type WardFunnel, type WardPoint } from "./ward-funnel.ts";
