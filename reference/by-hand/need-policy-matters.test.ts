import { describe, expect, test } from "vitest";
import { readReferral } from "../../src/contract/index.ts";
import { parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import { answerReferral } from "../../src/core/device-choice/index.ts";
import type { PolicyRow, PolicyValue } from "../../src/core/reason/index.ts";
import {
  defaultPolicyTable,
  deviceRules,
  needPolicyFrom,
  starterInfusates,
  tableWithValues,
} from "../../src/policy/index.ts";
import { isNeedRow } from "./need-keys.ts";

/**
 * Every limit and every rule of the question before the arm is moved, or put out of force, and some referral must then
 * be answered differently. A rule's own condition makes the referral it is tried on.
 */
const today = parseCivilDate("2026-11-25") as CivilDate;

const ordinary = {
  patient: { age: { value: 60, unit: "years" }, sex: "male" },
  kidney: { replacement: "none", filtration: 85 },
  infusates: ["ceftriaxone"],
  criticallyIll: "no",
  setting: "ward",
  cancer: "none",
  urgent: "no",
  cycles: "none",
  armBars: "none",
  sampleEveryHours: 24,
  difficultVeins: "no",
  carer: "somebody",
  oral: "not possible",
  endOfLife: "no",
  purpose: "therapy",
  admissionsAYear: 1,
};

const ages = {
  adult: { value: 60, unit: "years" },
  child: { value: 7, unit: "years" },
  newborn: { value: 5, unit: "days" },
};
const filtrations: Record<string, number> = { open: 85, assess: 50, barred: 20 };

/** The referral a rule was written for, at one of its days. */
function referralsOf(rule: (typeof deviceRules)[number]): unknown[] {
  const { when } = rule;
  const group = rule.groups[0] as keyof typeof ages;
  const bands = when.band ?? ["short", "middle", "long", "longest"];
  const days = { short: 4, middle: 10, long: 20, longest: 60 };
  const drug =
    when.nutrition?.includes("yes") || rule.id === "newborn-kidney"
      ? "parenteral nutrition"
      : when.vesicant?.includes("yes") || when.againstCancer?.includes("yes")
        ? "vincristine"
        : when.route?.includes("central")
          ? "vancomycin"
          : "ceftriaxone";
  return bands.flatMap((band) =>
    (when.purpose ?? ["therapy"]).map((purpose) => ({
      ...ordinary,
      ...Object.fromEntries(
        Object.entries(when)
          .filter(([name]) => name in ordinary)
          .map(([name, values]) => [name, values[0]]),
      ),
      purpose,
      patient: { age: ages[group], sex: "female", heightCm: 120 },
      days: days[band],
      infusates: [drug],
      pregnancy: when.pregnancy?.[0] ?? "no",
      // in a newborn no number bars
      kidney:
        group === "newborn" && when.kidney
          ? { replacement: "dialysis" }
          : { replacement: "none", filtration: filtrations[when.kidney?.[0] ?? "open"] },
      sampleEveryHours: when.sampling?.[0] === "often" ? 6 : 24,
      admissionsAYear: when.admissions?.[0] === "many" ? 9 : 1,
    })),
  );
}

const creatinine = (on: string) => ({
  replacement: "none",
  creatinines: [
    { value: 1, unit: "mg/dL", on: "2025-01-01" },
    { value: 1, unit: "mg/dL", on },
  ],
});
const bag = (osmolarity: number, ph: number, nutrition = false) => [
  { name: "bag", osmolarity, ph, tissueClass: "neither", nutrition },
];

const files: unknown[] = [
  ...deviceRules.flatMap(referralsOf),
  ...[5, 6, 14, 15, 30, 31].map((days) => ({ ...ordinary, days })),
  ...[7, 8, 14, 15].map((days) => ({ ...ordinary, patient: { age: ages.child }, days })),
  ...[7.5, 8, 8.5].map((sampleEveryHours) => ({ ...ordinary, days: 10, sampleEveryHours })),
  ...[5, 6].map((admissionsAYear) => ({ ...ordinary, days: 40, admissionsAYear })),
  ...[11, 12, 55, 56].map((value) => ({
    ...ordinary,
    days: 20,
    patient: { age: { value, unit: "years" }, sex: "female", heightCm: 150 },
  })),
  ...[890, 905].map((osmolarity) => ({ ...ordinary, days: 20, infusates: bag(osmolarity, 6) })),
  ...[890, 905].map((osmolarity) => ({ ...ordinary, days: 20, infusates: bag(osmolarity, 6, true) })),
  ...[890, 905].map((osmolarity) => ({
    ...ordinary,
    patient: { age: ages.child },
    days: 20,
    infusates: bag(osmolarity, 6, true),
  })),
  ...[4.95, 5.02, 8.95, 9.1].map((ph) => ({ ...ordinary, days: 20, infusates: bag(300, ph) })),
  ...[44.8, 45, 45.3, 59.8, 60, 60.3].map((filtration) => ({
    ...ordinary,
    days: 20,
    kidney: { replacement: "none", filtration },
  })),
  ...[199.9, 200.5].map((filtration) => ({ ...ordinary, days: 20, kidney: { replacement: "none", filtration } })),
  ...["2026-11-18", "2026-11-17"].map((on) => ({
    ...ordinary,
    days: 20,
    criticallyIll: "yes",
    kidney: creatinine(on),
  })),
  ...["2026-08-27", "2026-08-26"].map((on) => ({ ...ordinary, days: 20, kidney: creatinine(on) })),
  ...[{ inr: 3 }, { inr: 3.02 }, { platelets: 20 }, { platelets: 19.9 }, { platelets: 49.9 }, { platelets: 50.2 }].map(
    (bleeding) => ({ ...ordinary, days: 20, bleeding }),
  ),
  ...[47.9, 48.1].map((hoursSinceNegative) => ({
    ...ordinary,
    days: 20,
    culture: { state: "negative", hoursSinceNegative },
  })),
];

const referrals = files.map((file) => {
  const reading = readReferral(JSON.parse(JSON.stringify(file)), starterInfusates);
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  return reading.referral;
});

const answers = (table: typeof defaultPolicyTable): string[] => {
  const policy = needPolicyFrom(table);
  return referrals.map((referral) => {
    const { device, kidney, infusates, notes } = answerReferral(referral, policy, today);
    // the rule named beside an answer is part of it: its source is printed
    return JSON.stringify([device, kidney, infusates, notes]);
  });
};

const now = answers(defaultPolicyTable);

/** The least visible move: a hundredth, or one of a whole number, each way. */
function movedValues(value: PolicyValue): PolicyValue[] {
  if (typeof value === "boolean") return [!value];
  if (typeof value === "number")
    return Number.isInteger(value) && value < 100 ? [value + 1, value - 1] : [value * 1.01, value * 0.99];
  return (value as readonly number[]).flatMap((_, index) =>
    [1, -1].map((step) => (value as readonly number[]).map((one, at) => (at === index ? one + step : one))),
  );
}

describe("every limit and rule of the question before the arm decides something", () => {
  for (const [key, row] of Object.entries(defaultPolicyTable as Record<string, PolicyRow>)) {
    if (!isNeedRow(key)) continue;
    test(key, () => {
      for (const value of movedValues(row.value)) {
        const then = answers(tableWithValues(defaultPolicyTable, { [key]: value }) as typeof defaultPolicyTable);
        expect(
          then.some((answer, index) => answer !== now[index]),
          `${key} moved to ${String(value)} changes no answer`,
        ).toBe(true);
      }
    });
  }
});

test("every rule has a source, a place in it and how it is known", () => {
  for (const [key, row] of Object.entries(defaultPolicyTable as Record<string, PolicyRow>)) {
    if (!key.startsWith("device-rule.")) continue;
    expect(
      [row.source, row.place ?? "", row.howKnown, row.decides].every((text) => text.length > 3),
      key,
    ).toBe(true);
  }
});
