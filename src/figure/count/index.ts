export { rateByMonth, rateMonths, rateSpan, type RateMonth } from "./rate-by-month.ts";
export { controlChart, type ChartSpan } from "./control-chart.ts";
export { eventCurve, type CurveDay } from "./event-curve.ts";
export { armMapPlate, type ArmMapCell } from "./arm-map-plate.ts";
export { timePlate } from "./time-plate.ts";
export { chartInput, timeInput, type ChartInput } from "./chart-input.ts";
export { wardFunnelPlate } from "./ward-funnel-plate.ts";
export { wardUsePlate } from "./ward-use-plate.ts";
export { lineStatesPlate } from "./line-states-plate.ts";
