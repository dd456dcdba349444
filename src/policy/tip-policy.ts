import { centimetre } from "../core/quantity/index.ts";
import type { ReleasePolicy } from "../core/release/index.ts";
import type { TipPolicy } from "../core/tip/index.ts";
import { childUnits, junctionSeries } from "./junction-series.ts";
import type { PolicyTable } from "./policy-table.ts";

/** What a film is read by, under a table. */
export const tipPolicyFrom = (table: PolicyTable): TipPolicy => ({
  series: junctionSeries,
  enabled: table["tip.series"].value,
  childUnits,
  adultFromYears: table["tip.adult-from"].value,
  unitCm: centimetre(table["tip.unit"].value),
  armAway: {
    meanCm: table["tip.arm-away-mean"].value,
    leastCm: table["tip.arm-away-least"].value,
    mostCm: table["tip.arm-away-most"].value,
  },
  filmOverReadsCm: table["tip.film-over-reads"].value,
  magnification: { least: table["tip.magnification-least"].value, most: table["tip.magnification-most"].value },
  cavaLengthCm: table["tip.cava-length"].value,
  noiseCm: table["release.noise"].value,
  childArm: { meanSpaces: table["tip.child-arm-mean"].value, mostSpaces: table["tip.child-arm-most"].value },
  newbornArm: {
    perDegreeCm: table["tip.newborn-per-degree"].value,
    lowPerDegreeCm: table["tip.newborn-per-degree-low"].value,
    highPerDegreeCm: table["tip.newborn-per-degree-high"].value,
  },
  readers: { lowCm: table["tip.readers-low"].value, highCm: table["tip.readers-high"].value },
});

/** When a release ends, under a table. */
export const releasePolicyFrom = (table: PolicyTable): ReleasePolicy => ({
  noiseCm: table["release.noise"].value,
  outCm: table["release.out"].value,
  knownHours: table["release.known-hours"].value,
  notThroughHeld: table["release.not-through-held"].value,
  endsOnSymptoms: table["release.ends-on-symptoms"].value,
  silentOnTip: table["release.silent-on-tip"].value,
  flushAfterMove: table["release.flush-after-move"].value,
  centralPlaces: table["release.central-places"].value,
  filmAfterCorrection: table["release.film-after-correction"].value,
  overrideRoles: table["release.override-roles"].value,
  film: tipPolicyFrom(table),
});
