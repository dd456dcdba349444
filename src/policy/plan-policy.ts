import type { Vein } from "../core/arm/index.ts";
import type { BarStrength, PlanPolicy } from "../core/line-plan/index.ts";
import { centimetre, day, degree, french, kilogram, millimetre } from "../core/quantity/index.ts";
import { armBarRows } from "./arm-bar-rows.ts";
import type { PolicyTable } from "./policy-table.ts";

/** The planner's limits, read out of the local table. */
export function planPolicyFrom(table: PolicyTable): PlanPolicy {
  const bars = Object.keys(armBarRows).map((key) => [
    key.replace("arm-bar.", ""),
    table[key as keyof typeof armBarRows].value as BarStrength,
  ]);
  return {
    tapeErrorMm: millimetre(table["arm.tape-error"].value),
    oneReadingSdMm: millimetre(table["vein.one-reading-sd"].value),
    floorSdMm: millimetre(table["vein.floor-sd"].value),
    perCentimetreSdMm: millimetre(table["vein.per-centimetre-sd"].value),
    ratioLimit: table["ratio.limit"].value,
    ratioLimitChild: table["ratio.limit-child"].value,
    ratioLimitNewborn: table["ratio.limit-newborn"].value,
    ratioMarks: table["ratio.marks"].value,
    chanceMet: table["ratio.chance-met"].value,
    chanceNotMet: table["ratio.chance-not-met"].value,
    anglesDegree: table["needle.angles"].value.map(degree),
    angleErrorDegree: degree(table["needle.angle-error"].value),
    depthAskMm: millimetre(table["vein.depth-ask"].value),
    depthStopMm: millimetre(table["vein.depth-stop"].value),
    farReadingMm: millimetre(table["vein.far-reading"].value),
    leastTunnelMm: millimetre(table["tunnel.least-length"].value),
    veinOrder: table["vein.order"].value as readonly Vein[],
    weightBands: [
      {
        upToKg: kilogram(table["weight.band-1-up-to"].value),
        largestFrench: french(table["weight.band-1-french"].value),
      },
      {
        upToKg: kilogram(table["weight.band-2-up-to"].value),
        largestFrench: french(table["weight.band-2-french"].value),
      },
      { upToKg: kilogram(Infinity), largestFrench: french(table["weight.band-3-french"].value) },
    ],
    newbornUnderDays: day(table["age.newborn-under"].value),
    adultFromYears: table["age.adult-from"].value,
    armBars: Object.fromEntries(bars) as Record<string, BarStrength>,
    gridMm: millimetre(table["plan.grid"].value),
    greatestLumens: table["need.greatest-lumens"].value,
    lengthsAgreeWithinCm: {
      adult: centimetre(table["length.agree-adult"].value),
      child: centimetre(table["length.agree-child"].value),
    },
    carinaToJunctionCm: centimetre(table["length.carina-to-junction"].value),
    plausible: {
      timesUsualWeight: table["plausible.times-usual-weight"].value,
      shareOfUsualWeight: table["plausible.share-usual-weight"].value,
      leastAdultWeightKg: kilogram(table["plausible.least-adult-weight"].value),
      leastBodyMassIndex: table["plausible.least-body-mass-index"].value,
      mostBodyMassIndex: table["plausible.most-body-mass-index"].value,
      shortestAdultCm: centimetre(table["plausible.shortest-adult"].value),
      shortestAdultTapeCm: centimetre(table["plausible.shortest-adult-tape"].value),
      shortestAdultArmCm: centimetre(table["plausible.shortest-adult-arm"].value),
      longestAdultArmCm: centimetre(table["plausible.longest-adult-arm"].value),
      mostArmShareOfHeight: table["plausible.most-arm-share-of-height"].value,
      narrowestVeinMm: millimetre(table["plausible.narrowest-vein"].value),
      widestVeinMm: millimetre(table["plausible.widest-vein"].value),
      shallowestAdultVeinMm: millimetre(table["plausible.shallowest-adult-vein"].value),
    },
    lidocaine: {
      plain: { mgPerKg: table["anaesthetic.plain-mg-per-kg"].value, mostMg: table["anaesthetic.plain-most"].value },
      withAdrenaline: {
        mgPerKg: table["anaesthetic.adrenaline-mg-per-kg"].value,
        mostMg: table["anaesthetic.adrenaline-most"].value,
      },
      childMgPerKg: {
        plain: table["anaesthetic.child-plain-mg-per-kg"].value,
        withAdrenaline: table["anaesthetic.child-adrenaline-mg-per-kg"].value,
      },
      infantUnderDays: day(table["anaesthetic.infant-under"].value),
      infantShare: table["anaesthetic.infant-share"].value,
    },
  };
}
