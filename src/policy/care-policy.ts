import type { ArmLimits, CareLimits, IdleLimits, PatencyLimits, RemovalLimits } from "../core/care/index.ts";
import type { PolicyTable } from "./policy-table.ts";

/** The intervals of looking after a line, read out of the local table. */
export const careLimitsFrom = (table: PolicyTable): CareLimits => ({
  dressingTransparentDays: table["care.dressing-transparent"].value,
  dressingGauzeDays: table["care.dressing-gauze"].value,
  connectorLeastHours: table["care.connector-least"].value,
  connectorDueHours: table["care.connector-due"].value,
  flushIdleDays: table["care.flush-idle"].value,
  setContinuousLeastHours: table["care.set-continuous-least"].value,
  setDueHours: {
    continuous: table["care.set-continuous"].value,
    intermittent: table["care.set-intermittent"].value,
    nutrition: table["care.set-nutrition"].value,
    "nutrition with lipid": table["care.set-nutrition-lipid"].value,
    lipid: table["care.set-lipid"].value,
    blood: table["care.set-blood"].value,
    propofol: table["care.set-propofol"].value,
  },
  reviewWardDays: table["care.review-ward"].value,
  reviewHomeDays: table["care.review-home"].value,
  coveredWeekdays: table["care.covered-weekdays"].value,
});

/** When a line counts as idle, and when a long dwell is reviewed. */
export const idleLimitsFrom = (table: PolicyTable): IdleLimits => ({
  idleWardHours: table["care.idle-ward"].value,
  idleHomeDays: table["care.idle-home"].value,
  longDwellDays: table["care.long-dwell"].value,
  coverHours: table["care.cover-hours"].value,
  infectionsPer1000Days: table["care.infection-rate"].value,
});

/** Doses and clock of a blocked line. */
export const patencyLimitsFrom = (table: PolicyTable): PatencyLimits => ({
  lyticFullFromKg: table["care.lytic-full-from-weight"].value,
  lyticMostMg: table["care.lytic-most"].value,
  lyticMgPerMl: table["care.lytic-concentration"].value,
  lyticLumenShare: table["care.lytic-lumen-share"].value,
  lyticFirstCheckMin: table["care.lytic-first-check"].value,
  lyticSecondCheckMin: table["care.lytic-second-check"].value,
  lyticDoses: table["care.lytic-doses"].value,
  syringeLeastMl: table["care.syringe-least"].value,
});

/** Limits of taking a line out. */
export function removalLimitsFrom(table: PolicyTable): RemovalLimits {
  const [retryFromHours, retryToHours] = table["care.stuck-retry"].value as [number, number];
  return {
    lengthToleranceCm: table["care.removal-tolerance"].value,
    stuckClotBelowCm: table["care.stuck-clot"].value,
    heatMin: table["care.stuck-heat"].value,
    retryFromHours,
    retryToHours,
  };
}

/** How two girths of an arm are compared. */
export const armLimitsFrom = (table: PolicyTable): ArmLimits => ({
  riseCm: table["care.arm-rise"].value,
  samePlaceCm: table["care.arm-same-place"].value,
});
