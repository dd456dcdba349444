export { pool, type Pooled, type PooledRate, type PoolMismatch } from "./pool.ts";
export {
  poolFile,
  POOL_FORMAT,
  type PooledCount,
  type PoolFile,
  type PoolQuestion,
  type PoolStratum,
} from "./pool-file.ts";
export { exportLines, houseCodes, lineTableCsv, type Disguise, type ExportedLines } from "./export-lines.ts";
export { lineTableSchema, type SchemaField } from "./table-schema.ts";
export { caseCsv, caseFile } from "./case-file.ts";
export { STOP_CODES, withHouseWordsCoded, type CodeOf, type HouseWord } from "./house-words.ts";
