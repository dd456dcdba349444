export { looksAlike, slips, type Identified } from "./look-alike.ts";
