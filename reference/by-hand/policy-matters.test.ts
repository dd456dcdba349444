import { describe, expect, test } from "vitest";
import { readCase } from "../../src/contract/index.ts";
import { bedsidePlan, planLine } from "../../src/core/line-plan/index.ts";
import type { PolicyValue } from "../../src/core/reason/index.ts";
import {
  defaultPolicyTable,
  planPolicyFrom,
  tableWithValues,
  type PolicyKey,
  type PolicyTable,
} from "../../src/policy/index.ts";
import { demoShelf, practicePatients } from "../../src/practice/index.ts";
import {
  isCareRow,
  isCountRow,
  isFlowRow,
  isLineRow,
  isNeedRow,
  isPaperRow,
  isQualityRow,
  isSheetRow,
} from "./need-keys.ts";

/**
 * A policy row that nothing reads is a limit a hospital changes in vain. Every default is moved, and some practice
 * patient, or a variant of one made for the row, must then be answered differently.
 */
type Json = Record<string, unknown>;

const inputs = [...practicePatients.map(({ planCase }) => planCase), ...variants()].map((planCase) => {
  const reading = readCase(planCase, demoShelf);
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  return reading.input;
});

/** A reading of a wide vein with nothing in its way. */
function plainStation(atCm: number, depthMm: number) {
  return {
    atCm,
    diameterMm: 5,
    depthMm,
    artery: "none",
    nerveBeside: false,
    compressible: true,
    thrombus: false,
    tourniquetOn: false,
  };
}

function variants(): unknown[] {
  const first = practicePatients[0]?.planCase as unknown as Json & {
    patient: Json;
    arms: { right: Json & { surveys: Json[] } };
    need: Json;
  };
  const deep = (depthMm: number) => ({
    ...first,
    arms: {
      ...first.arms,
      right: {
        ...first.arms.right,
        surveys: [
          {
            vein: "basilic",
            stations: [9, 12].map((atCm) => plainStation(atCm, depthMm)),
          },
        ],
      },
    },
  });
  const withBar = (bar: string) => ({ ...first, arms: { ...first.arms, right: { ...first.arms.right, bars: [bar] } } });
  const aged = (value: number, unit: string, more: Json = {}) => ({
    ...first,
    patient: { ...first.patient, age: { value, unit }, ...more },
  });
  const sparse = {
    ...first,
    arms: {
      ...first.arms,
      right: {
        ...first.arms.right,
        surveys: [
          {
            vein: "basilic",
            stations: [8.4, 13.6].map((atCm) => plainStation(atCm, 9)),
          },
        ],
      },
    },
  };
  const length = { sides: { right: { tapeFromCm: 11, surfaceTapeCm: 24.5, secondTapeCm: 25.9 } }, outsideCm: 3 };
  const twoVeins = {
    ...first,
    arms: {
      ...first.arms,
      right: {
        ...first.arms.right,
        surveys: [...first.arms.right.surveys, { ...first.arms.right.surveys[0], vein: "cephalic" }],
      },
    },
  };
  return [
    deep(25.5),
    sparse,
    deep(30.5),
    twoVeins,
    ...[
      "dialysis-access",
      "future-dialysis",
      "thrombosis",
      "infection",
      "past-thrombosis",
      "lymph-nodes",
      "sentinel-node",
      "pacemaker",
      "fracture",
      "weakness",
      "crutches",
      "narrowed-cava",
    ].map(withBar),
    aged(17, "years"),
    aged(28, "days", { bornPreterm: false, weightKg: 3.5 }),
    aged(14, "months", { bornPreterm: false, weightKg: 20 }),
    { ...aged(6, "years", { weightKg: 20 }), length },
    { ...first, length },
    { ...first, need: { ...first.need, lumens: 2 }, patient: { ...first.patient, weightKg: 10 } },
    { ...first, need: { ...first.need, lumens: 2 }, patient: { ...first.patient, weightKg: 50 } },
    { ...first, need: { ...first.need, lumens: 3 } },
    { ...first, need: { ...first.need, lumens: 3 }, patient: { ...first.patient, weightKg: 90 } },
    { ...first, patient: { ...first.patient, weightKg: 60 } },
    {
      ...first,
      patient: { ...first.patient, weightKg: 60 },
      anaesthetic: { concentrationPercent: 1, withAdrenaline: true },
    },
    ...nearlyAskedAbout(first),
    { ...first, length: { clavicleCm: 15, sternumCm: 20, creaseBelowEpicondyleCm: 1, outsideCm: 3 } },
    ...[false, true].map((withAdrenaline) => ({
      ...aged(6, "years", { weightKg: 20 }),
      anaesthetic: { concentrationPercent: 1, withAdrenaline },
    })),
    {
      ...first,
      patient: { ...first.patient, weightKg: 90 },
      anaesthetic: { concentrationPercent: 1, withAdrenaline: true },
    },
  ];
}

/** Entries just inside what is plausible, one for each row: a row moved a tenth then asks about one of them. */
function nearlyAskedAbout(first: Json & { patient: Json; arms: { right: Json & { surveys: Json[] } } }): unknown[] {
  const patient = (more: Json) => ({ ...first, patient: { ...first.patient, ...more } });
  const arm = (more: Json) => ({ ...first, arms: { ...first.arms, right: { ...first.arms.right, ...more } } });
  const stations = (more: Json) =>
    arm({
      surveys: [{ vein: "basilic", stations: [9, 12].map((atCm) => ({ atCm, diameterMm: 5, depthMm: 10, ...more })) }],
    });
  return [
    patient({ age: { value: 10, unit: "years" }, weightKg: 18.6 }),
    patient({ weightKg: 25.5 }),
    patient({ weightKg: 165 }),
    patient({ weightKg: 30, heightCm: 125 }),
    { ...first, length: { sides: { right: { tapeFromCm: 11, surfaceTapeCm: 26, secondTapeCm: 26 } }, outsideCm: 3 } },
    arm({ armLengthCm: 12.5 }),
    arm({ armLengthCm: 34 }),
    stations({ diameterMm: 0.62 }),
    stations({ diameterMm: 9.5 }),
    stations({ depthMm: 2.1 }),
  ];
}

const answersUnder = (table: PolicyTable) => {
  const policy = planPolicyFrom(table);
  return inputs.map((input) => JSON.stringify([bedsidePlan(input, policy), planLine(input, policy)]));
};

/** A neighbouring value: numbers up or down, lists turned round, strengths weaker or stronger. */
function moved(value: unknown): unknown[] {
  if (typeof value === "number") return [value * 0.9, value * 1.1, value - 1, value + 1].filter((one) => one > 0);
  if (Array.isArray(value)) return [value.toReversed(), value.slice(1)];
  return value === "bar" ? ["weak"] : ["bar"];
}

/** Rows that the page reads and the planner does not, with where they are tried. */
const READ_ELSEWHERE: Partial<Record<PolicyKey, string>> = {
  // moved there by a minute, and an offer goes
  "chart.largest-shift": "test/specification/drug-chart.test.ts",
  "chart.short-run": "test/specification/drug-chart.test.ts",
  "expiry.vein-reading": "test/browser/plan-page.test.ts",
  "expiry.weight-child": "src/core/identity/freshness.test.ts",
  "expiry.weight-newborn": "src/core/identity/freshness.test.ts",
  // the infant's share counts only where a hospital has set the child's ceiling
  "anaesthetic.infant-under": "src/core/anaesthetic/lidocaine-ceiling.test.ts",
  "anaesthetic.infant-share": "src/core/anaesthetic/lidocaine-ceiling.test.ts",
};

describe("every policy default matters", () => {
  const before = answersUnder(defaultPolicyTable);
  for (const key of Object.keys(defaultPolicyTable) as PolicyKey[]) {
    if (
      key in READ_ELSEWHERE ||
      isNeedRow(key) ||
      isFlowRow(key) ||
      isCareRow(key) ||
      isLineRow(key) ||
      isCountRow(key) ||
      isSheetRow(key) ||
      isQualityRow(key) ||
      isPaperRow(key)
    )
      continue;
    test(`moving "${key}" changes an answer`, () => {
      const changed = moved(defaultPolicyTable[key].value).some((value) => {
        const after = answersUnder(tableWithValues(defaultPolicyTable, { [key]: value as PolicyValue }));
        return after.some((answer, index) => answer !== before[index]);
      });
      expect(changed).toBe(true);
    });
  }
});
