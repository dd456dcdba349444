export { caseSheet } from "./case-sheet.ts";
export { twoCaseSheet } from "./two-case-sheet.ts";
