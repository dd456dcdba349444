import { describe, expect, test } from "vitest";
import { parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import {
  careDue,
  daysSaved,
  judgeArmCircumference,
  judgeNeed,
  judgeRemoval,
  lyticDose,
  nextPatencyStep,
  nextResistanceStep,
  SET_KINDS,
  weekendList,
  type LineCare,
  type LineNeed,
  type PatencyAnswers,
} from "../../src/core/care/index.ts";
import {
  clotCriteria,
  differentialTime,
  infectionCriteria,
  judgeClotSuspicion,
  judgeQuantitative,
  judgeSkinSigns,
  judgeTipCulture,
  type CultureBottle,
} from "../../src/core/complication/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre, kilogram, millilitre } from "../../src/core/quantity/index.ts";
import type { PolicyRow, PolicyValue } from "../../src/core/reason/index.ts";
import {
  armLimitsFrom,
  careLimitsFrom,
  cultureLimitsFrom,
  defaultPolicyTable,
  idleLimitsFrom,
  infectionLimitsFrom,
  patencyLimitsFrom,
  removalLimitsFrom,
  removalOrganisms,
  tableWithValues,
  thrombosisLimitsFrom,
  type PolicyTable,
} from "../../src/policy/index.ts";
import { isCareRow } from "./need-keys.ts";
import { blockedLine } from "../blocked-line.ts";

/** Every limit of looking after a line is moved by the least step, each way, and some answer must move with it. */
const at = (text: string) => parseInstant(text) as Instant;
const on = (text: string) => parseCivilDate(text) as CivilDate;
const notKnown = missing("not known");
const now = at("2025-08-08T12:00+02:00"); // a Friday

const line = (more: Partial<LineCare>): LineCare => ({
  id: "line",
  setting: "ward",
  person: "a nurse",
  place: "ward 3",
  nextOn: notKnown,
  dressing: { type: "transparent", doneAt: at("2025-08-05T09:00+02:00"), state: "sound" },
  connector: { changedAt: at("2025-08-05T09:00+02:00"), reason: "none" },
  flushedAt: at("2025-08-05T09:00+02:00"),
  sets: SET_KINDS.map((kind) => ({ kind, startedAt: at("2025-08-08T11:00+02:00") })),
  reviewedAt: at("2025-08-07T09:00+02:00"),
  ...more,
});
const lines = [
  line({}),
  line({ dressing: { type: "transparent", doneAt: at("2025-08-04T09:00+02:00"), state: "sound" } }),
  line({ setting: "home", dressing: { type: "gauze", doneAt: at("2025-08-07T09:00+02:00"), state: "sound" } }),
];

const need = (more: Partial<LineNeed>): LineNeed => ({
  setting: "ward",
  placedOn: on("2025-05-10"),
  lastUsedAt: at("2025-08-06T12:00+02:00"),
  plannedEndOn: on("2025-08-20"),
  changedToTablets: false,
  onlyBloodSampling: false,
  secondDeviceDoesTheJob: false,
  somebodyFlushes: true,
  lastLongDwellReviewOn: notKnown,
  ...more,
});

const blocked: PatencyAnswers = {
  ...blockedLine,
  flushes: "not at all",
  weightKg: kilogram(28),
  labelLumenMl: millilitre(0.5),
};
const givenAt = (text: string, bloodAtSecondCheck?: boolean) => ({
  at: at(text),
  bloodAtFirstCheck: bloodAtSecondCheck === undefined ? notKnown : false,
  bloodAtSecondCheck: bloodAtSecondCheck ?? notKnown,
});

const bottle = (more: Partial<CultureBottle>): CultureBottle => ({
  id: "bottle",
  site: { kind: "peripheral" },
  medium: notKnown,
  drawnAt: at("2025-08-08T10:00+02:00"),
  loadedAt: at("2025-08-08T10:20+02:00"),
  flaggedAt: at("2025-08-08T20:20+02:00"),
  organism: "Staphylococcus epidermidis",
  volumeMl: millilitre(10),
  ...more,
});
const early = bottle({ site: { kind: "lumen", lumen: "1" }, flaggedAt: at("2025-08-08T18:20+02:00") });

function answers(table: PolicyTable): string {
  const care = careLimitsFrom(table);
  const idle = idleLimitsFrom(table);
  const patency = patencyLimitsFrom(table);
  const removal = removalLimitsFrom(table);
  const culture = cultureLimitsFrom(table);
  const infection = infectionLimitsFrom(table);
  const clot = thrombosisLimitsFrom(table);
  const arm = (nowAtCm: number) =>
    judgeArmCircumference(
      {
        baseline: { circumferenceCm: centimetre(28), atCm: centimetre(10) },
        now: { circumferenceCm: centimetre(31), atCm: centimetre(nowAtCm) },
        symptoms: true,
        oedema: true,
      },
      armLimitsFrom(table),
    );
  const skin = (reachesCm: number) =>
    judgeSkinSigns({ present: true, reachesCm: centimetre(reachesCm), alongTunnel: false }, infection);
  const stuck = {
    withdrawnCm: centimetre(9.5),
    rePositioned: true,
    heatedAt: now,
    dressedAt: notKnown,
    retriedAfterRest: false,
  };
  const infected = {
    shockOrSevereSepsis: false,
    septicThrombophlebitis: false,
    endocarditis: false,
    tunnelInfectionOrPus: false,
    stillGrowsAfterHours: 72,
    organism: "Staphylococcus epidermidis",
    otherSource: false,
    lineInfectionShown: true,
    needed: true,
    otherAccess: true,
  };
  return JSON.stringify([
    lines.map((one) => careDue(one, now, care)),
    weekendList(lines, now, [], care),
    judgeNeed(need({}), now, idle),
    judgeNeed(need({ setting: "home", lastUsedAt: at("2025-07-25T12:00+02:00") }), now, idle),
    daysSaved([12, 12, 12, 12, 12], idle),
    [1, 29.9, 30, 30.1, 31].map((weightKg) =>
      [0.5, 1.8, 2.1].map((ml) => lyticDose({ weightKg: kilogram(weightKg), labelLumenMl: millilitre(ml) }, patency)),
    ),
    nextPatencyStep(blocked, now, patency),
    ...["2025-08-08T11:59+02:00", "2025-08-08T10:30+02:00", "2025-08-08T09:00+02:00"].map((text) =>
      nextPatencyStep({ ...blocked, lytic: [givenAt(text)] }, now, patency),
    ),
    ...[1, 2].map((doses) =>
      nextPatencyStep(
        { ...blocked, lytic: Array.from({ length: doses }, () => givenAt("2025-08-08T09:00+02:00", false)) },
        now,
        patency,
      ),
    ),
    judgeRemoval(
      {
        placedCm: centimetre(45),
        trimmedLaterCm: centimetre(0),
        outCm: centimetre(44.5),
        tipIntact: true,
        infectionSuspected: false,
        tipSentForCulture: false,
      },
      removal,
    ),
    nextResistanceStep(stuck, now, removal),
    nextResistanceStep({ ...stuck, dressedAt: now }, now, removal),
    arm(10),
    arm(10.5),
    arm(10.503),
    ...[10, 15, 16].map((later) =>
      differentialTime(
        early,
        bottle({
          drawnAt: at(`2025-08-08T10:${later}+02:00`),
          loadedAt: at("2025-08-08T10:50+02:00"),
          flaggedAt: at("2025-08-08T20:50+02:00"),
        }),
        false,
        culture,
      ),
    ),
    ...[29, 30, 31].map((later) =>
      differentialTime(early, bottle({ loadedAt: at(`2025-08-08T10:${20 + later}+02:00`) }), false, culture),
    ),
    ...[8, 7.99].map((ml) => differentialTime(early, bottle({ volumeMl: millilitre(ml) }), false, culture)),
    judgeQuantitative({ lineCfuPerMl: 400, otherCfuPerMl: 100, other: "peripheral" }, culture),
    judgeTipCulture("roll-plate", 15, culture),
    judgeTipCulture("sonication", 100, culture),
    skin(2),
    skin(2.01),
    infectionCriteria(infected, removalOrganisms, infection),
    judgeClotSuspicion(
      { catheterOrLead: true, localPain: false, oneSidedOedema: true, otherDiagnosisAsLikely: false },
      true,
      "normal",
      clot,
    ),
    clotCriteria(
      { needed: true, working: true, infected: false, symptomsPersistOnTreatment: false, bleedingBarsTreatment: false },
      clot,
    ),
  ]);
}

function movedValues(key: string, value: PolicyValue): PolicyValue[] {
  if (key === "care.covered-weekdays")
    return [
      [5, 6],
      [5, 6, 0, 1],
    ];
  if (typeof value === "number") return Number.isInteger(value) ? [value + 1, value - 1] : [value * 1.01, value * 0.99];
  return (value as readonly number[]).flatMap((_, index) =>
    [1, -1].map((step) => (value as readonly number[]).map((one, place) => (place === index ? one + step : one))),
  );
}

describe("every limit of looking after a line decides something", () => {
  const before = answers(defaultPolicyTable);
  for (const [key, row] of Object.entries(defaultPolicyTable as Record<string, PolicyRow>)) {
    if (!isCareRow(key)) continue;
    test(key, () => {
      for (const value of movedValues(key, row.value)) {
        const moved = tableWithValues(defaultPolicyTable, { [key]: value });
        expect(answers(moved), `${key} moved to ${String(value)}`).not.toBe(before);
      }
    });
  }
});
