import type { SurveillanceDefinition } from "../core/complication/index.ts";
import type { PolicyTable } from "./policy-table.ts";
import { surveillanceDefinitions } from "./surveillance-definition.ts";

/** The limits a spreadsheet is held against, as its readers take them. */
export interface SheetLimits {
  readonly oldestYears: number;
  readonly sizeFr: readonly [number, number];
  readonly mostLumens: number;
  readonly veinMm: readonly [number, number];
  readonly insideCm: readonly [number, number];
  readonly mostAttempts: number;
  readonly longestStayDays: number;
  /** The days after removal that counting has: one rule for both. */
  readonly clotDaysAfter: number;
  readonly surveillance: readonly SurveillanceDefinition[];
  /** A written ratio may be off size over vein by this share of it, as counting has it. */
  readonly ratioAgrees: number;
  readonly orderDays: number;
  readonly kindRows: number;
  readonly checkDigitShare: number;
  readonly newbornVeinMm: number;
  readonly newbornSizeFr: number;
  readonly swappedShare: number;
  /** As counting holds size and lumens: one rule for both. */
  readonly leastSizeOfLumens: readonly number[];
}

export const sheetLimitsFrom = (table: PolicyTable): SheetLimits => ({
  oldestYears: table["sheet.oldest"].value,
  sizeFr: [table["sheet.least-size"].value, table["sheet.most-size"].value],
  mostLumens: table["sheet.most-lumens"].value,
  veinMm: [table["sheet.narrowest-vein"].value, table["sheet.widest-vein"].value],
  insideCm: [table["sheet.shortest-inside"].value, table["sheet.longest-inside"].value],
  mostAttempts: table["sheet.most-attempts"].value,
  longestStayDays: table["sheet.longest-stay"].value,
  clotDaysAfter: table["count.clot-days-after"].value,
  surveillance: surveillanceDefinitions,
  ratioAgrees: table["count.ratio-agrees"].value,
  orderDays: table["sheet.order-days"].value,
  kindRows: table["sheet.kind-rows"].value,
  checkDigitShare: table["sheet.check-digit-share"].value,
  newbornVeinMm: table["sheet.narrowest-vein-newborn"].value,
  newbornSizeFr: table["sheet.newborn-size"].value,
  swappedShare: table["sheet.swapped-share"].value,
  leastSizeOfLumens: table["quality.least-size-of-lumens"].value,
});
