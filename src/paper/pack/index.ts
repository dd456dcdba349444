export { packSheets } from "./pack-sheets.ts";
