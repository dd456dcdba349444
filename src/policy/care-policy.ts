import type { CarePolicy, LyticPolicy, RemovalPolicy } from "../core/care/index.ts";
import type { CulturePolicy } from "../core/complication/index.ts";
import type { PolicyTable } from "./policy-table.ts";

/** The intervals of care under a table. */
export const carePolicyFrom = (table: PolicyTable): CarePolicy => ({
  transparentDays: table["care.transparent-days"].value,
  gauzeDays: table["care.gauze-days"].value,
  atOnceStates: table["care.dressing-at-once"].value,
  connectorDays: table["care.connector-days"].value,
  connectorLeastHours: table["care.connector-least"].value,
  idleFlushDays: table["care.idle-flush-days"].value,
  idleHoursWard: table["care.idle-hours-ward"].value,
  idleDaysHome: table["care.idle-days-home"].value,
  longDwellDays: table["care.long-dwell-days"].value,
  notSeenDays: table["care.not-seen-days"].value,
  setHours: {
    continuous: table["care.set-continuous"].value,
    intermittent: table["care.set-intermittent"].value,
    nutrition: table["care.set-nutrition"].value,
    "lipid alone": table["care.set-lipid"].value,
    blood: table["care.set-blood"].value,
  },
});

export const removalPolicyFrom = (table: PolicyTable): RemovalPolicy => ({
  agreesWithinCm: table["care.removal-agrees"].value,
});

export const lyticPolicyFrom = (table: PolicyTable): LyticPolicy => ({
  fullDoseFromKg: table["lytic.full-from"].value,
  fullDoseMg: table["lytic.full-dose"].value,
  mgPerMl: table["lytic.concentration"].value,
  smallShare: table["lytic.small-share"].value,
  firstLookMin: table["lytic.first-look"].value,
  secondLookMin: table["lytic.second-look"].value,
  mostDoses: table["lytic.most-doses"].value,
});

export const culturePolicyFrom = (table: PolicyTable): CulturePolicy => ({
  differenceMin: table["culture.difference"].value,
  drawnWithinMin: table["culture.drawn-within"].value,
  loadedWithinMin: table["culture.loaded-within"].value,
  waitedMostMin: table["culture.waited-most"].value,
  volumeRatioMost: table["culture.volume-ratio-most"].value,
});
