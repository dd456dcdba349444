export { planPdf } from "./plan-pdf.ts";
export { planSheet, type PlanSheet } from "./plan-sheet.ts";
export { linePaperPdf } from "./line-pdf.ts";
export { packSheets } from "./pack/index.ts";
export { caseSheet, twoCaseSheet } from "./case/index.ts";
