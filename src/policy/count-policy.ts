import type { PolicyTable } from "./policy-table.ts";

/** The limits of counting, read out of the local table. */
export const countLimitsFrom = (table: PolicyTable) => ({
  level: table["count.level"].value,
  fewestForEstimate: table["count.fewest-for-estimate"].value,
  smallestShown: table["count.smallest-shown"].value,
  provisionalDays: table["count.provisional-days"].value,
  shortStayDays: table["count.short-stay"].value,
  ratioEdgesPercent: table["count.ratio-edges"].value,
  ageEdgesYears: table["count.age-edges"].value,
  goodTipPlaces: table["count.good-tip"].value,
  lowFiltration: table["count.low-filtration"].value,
  clotDaysAfter: table["count.clot-days-after"].value,
  lostDays: table["count.lost-days"].value,
  longDwellDays: table["count.long-dwell"].value,
  ratioPossible: table["count.ratio-possible"].value,
  ratioAgrees: table["count.ratio-agrees"].value,
  watchRatio: table["count.watch-ratio"].value,
  falseAlarmMonths: table["count.false-alarm-months"].value,
  alarmFrom: table["count.alarm-from"].value,
  gapChartBelow: table["count.gap-chart-below"].value,
  monthlyFrom: table["count.monthly-from"].value,
  baseEvents: table["count.base-events"].value,
  signalChance: table["count.signal-chance"].value,
  sharedChance: table["count.shared-chance"].value,
  learningRates: table["count.learning-rates"].value,
  learningError: table["count.learning-error"].value,
  funnelShares: table["count.funnel-shares"].value,
  funnelLeast: table["count.funnel-least"].value,
  atRiskLeast: table["count.at-risk-least"].value,
  mapLeastDays: table["count.map-least-days"].value,
  oldestShownYears: table["count.oldest-shown"].value,
  rarePeople: table["count.rare-people"].value,
  lotExpiryDays: table["count.lot-expiry-days"].value,
  eventsPerParameter: table["count.events-per-parameter"].value,
});

export type CountLimits = ReturnType<typeof countLimitsFrom>;
