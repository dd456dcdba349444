import { expect, test } from "vitest";
import { parseCivilDate, type CivilDate } from "../calendar/index.ts";
import {
  dateOfEvent,
  isHealthcareAssociated,
  lineDay,
  lineRuns,
  mergeRepeats,
  ruleInForce,
  surveillanceEligibility,
  type SurveillanceRule,
} from "./index.ts";

const date = (text: string) => parseCivilDate(text) as CivilDate;
const march = (dayOfMonth: number) => date(`2025-03-${String(dayOfMonth).padStart(2, "0")}`);

/** CDC/NHSN, Patient Safety Component Manual, chapters 2 and 4, as described on cdc.gov/nhsn/faqs (from memory where noted there). */
const rule: SurveillanceRule = {
  name: "NHSN 2025",
  validFrom: date("2025-01-01"),
  source: "CDC/NHSN, Patient Safety Component Manual, chapters 2 and 4",
  eligibleFromLineDay: 3,
  daysAfterRemoval: 1,
  repeatFrameDays: 14,
  daysWithoutLineToRestart: 1,
  windowDaysBefore: 3,
  windowDaysAfter: 3,
  healthcareFromDay: 3,
};

test("a line is eligible from day 3 to the day after removal", () => {
  const line = { firstAccess: march(3), removed: march(10) };
  expect(lineDay(line, march(3))).toBe(1);
  expect([4, 5, 10, 11, 12, 2].map((on) => surveillanceEligibility(line, march(on), rule))).toEqual([
    "before eligibility",
    "eligible",
    "eligible",
    "eligible",
    "too long after removal",
    "before the line",
  ]);
  expect(surveillanceEligibility({ firstAccess: march(3) }, march(28), rule)).toBe("eligible");
});

test("a line removed on day 2 never became eligible", () => {
  expect(surveillanceEligibility({ firstAccess: march(3), removed: march(4) }, march(5), rule)).toBe(
    "line never became eligible",
  );
  expect(() => surveillanceEligibility({ firstAccess: march(3), removed: march(1) }, march(5), rule)).toThrow(
    /before its first access/,
  );
});

test("repeats inside 14 days are merged, and the kept date starts the frame", () => {
  const kept = mergeRepeats([march(3), march(10), march(16), march(17), date("2025-04-01")], rule);
  expect(kept.map((event) => event.kept)).toEqual(["2025-03-03", "2025-03-17", "2025-04-01"]);
  expect(kept[0]?.merged).toEqual(["2025-03-10", "2025-03-16"]);
});

test("the day count restarts only after a full day without a line", () => {
  const next = (on: number) =>
    lineRuns(
      [
        { firstAccess: march(on), removed: march(20) },
        { firstAccess: march(1), removed: march(4) },
      ],
      rule,
    );
  expect(next(5)).toEqual([{ firstAccess: march(1), removed: march(20) }]);
  expect(next(6)).toHaveLength(2);
  expect(lineRuns([{ firstAccess: march(1) }, { firstAccess: march(3), removed: march(9) }], rule)).toEqual([
    { firstAccess: march(1) },
  ]);
});

test("the date of event is the first element inside the window", () => {
  expect(dateOfEvent(march(10), [march(6), march(8), march(12)], rule)).toBe(march(8));
  expect(dateOfEvent(march(10), [march(14)], rule)).toBe(march(10));
});

test("an event is healthcare-associated from hospital day 3", () => {
  expect(isHealthcareAssociated(march(1), march(2), rule)).toBe(false);
  expect(isHealthcareAssociated(march(1), march(3), rule)).toBe(true);
});

test("the rule in force is the latest that has begun", () => {
  const older = { ...rule, name: "older", validFrom: date("2024-01-01") };
  expect(ruleInForce([rule, older], date("2024-12-31"))?.name).toBe("older");
  expect(ruleInForce([rule, older], date("2025-01-01"))?.name).toBe("NHSN 2025");
  expect(ruleInForce([rule, older], date("2023-12-31"))).toBeUndefined();
});
