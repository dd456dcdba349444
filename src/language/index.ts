export * from "./en/number.ts";
export * from "./en/arm-bar.ts";
export * from "./en/finding.ts";
export * from "./en/answer.ts";
export * from "./en/fault.ts";
export * from "./en/figure.ts";
export * from "./en/identity.ts";
export * from "./en/self-test.ts";
export * from "./en/number-words.ts";
export * from "./en/sums.ts";
export * from "./en/referral.ts";
export * from "./en/expectation.ts";
export * from "./en/flow.ts";
export * from "./en/drug-chart.ts";
export * from "./en/moment.ts";
export * from "./en/record-words.ts";
export * from "./en/record.ts";
export * from "./en/line-finding.ts";
export { daysSavedSentence, dueSentence, ownerWords, patencyLines, resistanceSentence } from "./en/care.ts";
export { patencyAsks, patencyEntry, patencyWords, sayLook, sayLyticDose } from "./en/patency.ts";
export { clotScoreSentence, criteriaLines, cultureLines, phlebitisSentence } from "./en/complication.ts";
export * from "./en/paper.ts";
export * from "./en/paper-care.ts";
export { cardFactLines } from "./en/card-facts.ts";
export * from "./en/device.ts";
export { depthWords, filmLines, outsideSentence } from "./en/tip.ts";
export { plateDepth, tipPlateWords } from "./en/tip-plate.ts";
export * from "./en/count.ts";
export * from "./en/count-more.ts";
export * from "./en/count-answer.ts";
export { partLines } from "./en/count-by.ts";
export { sparseLines, tooFewToTell } from "./en/guard.ts";
export { rateModelLines } from "./en/rate-model.ts";
export { statesLines, statesRefused, statesSentence, statesWords } from "./en/line-states.ts";
export { funnelLines, wardPlateWords, wardSentences } from "./en/ward.ts";
export { packPages, type PackPage } from "./en/count-pack.ts";
export { learningLines, mapLines } from "./en/count-map.ts";
export * from "./en/spreadsheet.ts";
export { REFUSAL_CODES, sayServerRefusal, type RefusalCode } from "./en/refusal.ts";
export {
  backupSentence,
  brokenLinkSentence,
  restoredSentence,
  stoppedSentence,
  storeInUse,
  storeRefusal,
  wholeSentences,
} from "./en/store.ts";
export * from "./en/people.ts";
export { countGroups, countWords, figureNumber, referralRowWords, rowWords, sumLines } from "./en/count-page.ts";
export { countPlateWords } from "./en/count-plate.ts";
export { monthWords, packEventRow, packShareRow } from "./en/pack-month.ts";
export { packWords, wardCell } from "./en/pack-sheet.ts";
export { cutShort, splitCell } from "./en/pack-figure.ts";
export { beginningWords, partGuardLines, timeGuardLines } from "./en/pack-doubt.ts";
export { glanceContext, glanceHeadline, glanceLines, glanceMend } from "./en/glance.ts";
export * from "./en/yardstick.ts";
export * from "./en/case.ts";
export { timePlateWords } from "./en/time-plate.ts";
export { changeLines, notedLines, rememberedLines, rememberedRow, timeWords } from "./en/pack-time.ts";
export { memoryWords, sayMemoryRefusal } from "./en/memory-words.ts";
export * from "./en/ward-month.ts";
export * from "./en/ward-use.ts";
export { partsWords, spanWords, thenAndNowWords } from "./en/span-plate.ts";
