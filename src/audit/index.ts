export * from "./line/index.ts";
export {
  columnsOf,
  lineCount,
  lineOfKey,
  packedOf,
  packedOfSent,
  packRows,
  rowAt,
  sentLines,
  tableOf,
  type PackedLines,
  type SentLines,
} from "./packed/index.ts";
export * from "./quality/index.ts";
export * from "./measure/index.ts";
export * from "./figure/index.ts";
export * from "./monitor/index.ts";
export * from "./follow/index.ts";
export * from "./case/index.ts";
export * from "./exchange/index.ts";
export * from "./pack/index.ts";
export * from "./map/index.ts";
export * from "./glance/index.ts";
export * from "./yardstick/index.ts";
export * from "./dwell-table/index.ts";
export * from "./ward/index.ts";
export * from "./guard/index.ts";
