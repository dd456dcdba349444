export {
  DENOMINATORS,
  mergesRepeats,
  readMeasures,
  type EventFlag,
  type LineSet,
  type Measure,
  type MeasureFault,
  type MeasureReading,
} from "./measure.ts";
export { passes, referralPasses, thirdOf, type LineTest } from "./line-test.ts";
export { COMPARED } from "./compared.ts";
export { NO, NOT_KNOWN_YET, verdictColumn, YES } from "./verdict-column.ts";
