export * from "./sheet.ts";
export { lineRulesFrom, type PaperInput } from "./paper-input.ts";
export { LINE_PAPER_NAMES, linePaper, type LinePaperName } from "./line-paper.ts";
export { armProtectionFor } from "./arm-protection.ts";
export { handoverSheets, recallSheets, type ListedLine } from "./list-papers.ts";
export { lineFactsOf } from "./line-facts-of.ts";
export { sheetText } from "./sheet-text.ts";
