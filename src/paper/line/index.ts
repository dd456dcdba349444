export * from "./sheet.ts";
export { lineRulesFrom, type PaperInput } from "./paper-input.ts";
export { linePaper } from "./line-paper.ts";
export { LINE_PAPER_NAMES, type LinePaperName } from "../../register/index.ts";
export { armProtectionFor } from "./arm-protection.ts";
export { handoverSheets, recallSheets, type ListedLine } from "./list-papers.ts";
export { lineFactsOf } from "./line-facts-of.ts";
export { sheetText } from "./sheet-text.ts";
