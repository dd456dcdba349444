export { monitorPlan, type ChartPlan, type MonitorPlan, type WatchedEvents } from "./monitor-plan.ts";
export { watch, type Signal, type Watch, type WatchBase, type WatchPoint } from "./watch.ts";
export { sharedExposures, type SharedExposure, type SharedExposures } from "./shared-exposure.ts";
export { learningCurve, type LearningCase, type LearningCurve } from "./learning-curve.ts";
export { dailyDays } from "./daily-days.ts";
export {
  monitorService,
  type ChartMonth,
  type EventGap,
  type ServiceChart,
  type ServiceMonitor,
} from "./monitor-service.ts";
export { gapChart, GAP_FORMS, type ChartedGap, type GapChart, type GapForm } from "./gap-chart.ts";
export { drawnTogether, type DrawnGroup, type DrawnTogether, type LimitedGroup } from "./drawn-together.ts";
export { type FrozenBase } from "./frozen-base.ts";
export { rememberedSignals, type RememberedSignal, type SignalNow } from "./kept-signal.ts";
