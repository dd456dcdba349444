export * from "./fault.ts";
export * from "./number-text.ts";
export { readCase, readCaseText, type CaseReading } from "./read-case.ts";
export { planCaseJsonSchema, type PlanCase } from "./plan-schema.ts";
export { caseFromDraft, draftFromCase, type CaseOfDraft, type Draft } from "./draft.ts";
export { readReferral, readReferralText, type ReferralReading } from "./read-referral.ts";
export { referralJsonSchema, type ReferralFile } from "./referral-schema.ts";
export { readInfusateCsv } from "./infusate-csv.ts";
export { referralFromDraft } from "./referral-draft.ts";
export { readLumenText, readMixingText, readVeinText, sizeOf } from "./read-flow.ts";
export { flowJsonSchemas, type LumenFile, type MixingFile, type VeinFile } from "./flow-schema.ts";
export { readChart, readChartText } from "./read-chart.ts";
export { chartJsonSchema, type ChartFile } from "./chart-schema.ts";
export { chartFromDraft } from "./chart-draft.ts";
export * from "./read-event.ts";
export * from "./entry-draft.ts";
export {
  readCultureText,
  readDueText,
  readPatencyText,
  type CultureQuestion,
  type DueQuestion,
  type PatencyQuestion,
} from "./read-care.ts";
export { careJsonSchemas, type CultureFile, type DueFile, type PatencyFile } from "./care-schema.ts";
export { checkCharacters } from "./check-characters.ts";
export { type LineFacts } from "./line-facts.ts";
export { BLOCK_LETTERS, readLineBlock, writeLineBlock, type LineBlockReading } from "./line-block.ts";
export { readLineFile, type LineFile } from "./read-line-file.ts";
export { readFilmText, readTipText, type TipQuestions } from "./read-tip.ts";
export { tipJsonSchemas, type FilmFile, type TipFile } from "./tip-schema.ts";
export { readLineTable, type LineTableReading } from "./read-line-table.ts";
export { readLotTable } from "./read-lot-table.ts";
export { hiddenSigns } from "./hidden-sign.ts";
export { poolJsonSchema, readPoolText } from "./pool-schema.ts";
export { readMemory } from "./read-memory.ts";
export { FIRST_YEAR, LAST_YEAR } from "./year.ts";
