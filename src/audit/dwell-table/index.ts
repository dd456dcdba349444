export { dwellTable } from "./dwell-table.ts";
