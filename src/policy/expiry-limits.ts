import type { ExpiryLimits } from "../core/identity/index.ts";
import type { PolicyTable } from "./policy-table.ts";

/** How long readings count, read out of the local table. */
export const expiryLimitsFrom = (table: PolicyTable): ExpiryLimits => ({
  veinReadingHours: table["expiry.vein-reading"].value,
  weightChildHours: table["expiry.weight-child"].value,
  weightNewbornHours: table["expiry.weight-newborn"].value,
});
