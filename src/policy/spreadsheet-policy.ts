import type { PolicyTable } from "./policy-table.ts";

/** The limits a spreadsheet is held against, as its readers take them. */
export interface SheetLimits {
  readonly oldestYears: number;
  readonly sizeFr: readonly [number, number];
  readonly mostLumens: number;
  readonly veinMm: readonly [number, number];
  readonly insideCm: readonly [number, number];
  readonly mostAttempts: number;
  readonly longestStayDays: number;
  readonly eventAfterRemovalDays: number;
}

export const sheetLimitsFrom = (table: PolicyTable): SheetLimits => ({
  oldestYears: table["sheet.oldest"].value,
  sizeFr: [table["sheet.least-size"].value, table["sheet.most-size"].value],
  mostLumens: table["sheet.most-lumens"].value,
  veinMm: [table["sheet.narrowest-vein"].value, table["sheet.widest-vein"].value],
  insideCm: [table["sheet.shortest-inside"].value, table["sheet.longest-inside"].value],
  mostAttempts: table["sheet.most-attempts"].value,
  longestStayDays: table["sheet.longest-stay"].value,
  eventAfterRemovalDays: table["sheet.event-after-removal"].value,
});
