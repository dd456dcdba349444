import type { RowEventKind } from "./line-row.ts";

/** Removal reasons that are themselves the sighting of a mechanical event, in the record and in a spreadsheet alike. */
export const SEEN_AT_REMOVAL: Readonly<Record<string, RowEventKind>> = {
  blocked: "occlusion",
  "tip moved": "migration",
  "came out": "dislodgement",
  "leak or break": "leak or break",
};
