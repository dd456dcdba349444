import { expect, test } from "vitest";
import { parseCivilDate, type CivilDate } from "../calendar/index.ts";
import {
  lineDays,
  LINE_CLOCKS,
  momentOf,
  patientDays,
  PATIENT_CLOCKS,
  stayInMinutes,
  type Moment,
  type Stay,
} from "./index.ts";

const date = (text: string) => parseCivilDate(text) as CivilDate;
const at = (text: string, offset = 0): Moment => {
  const [on, clock] = text.split(" ") as [string, string | undefined];
  if (clock === undefined) return { precision: "date", date: date(on) };
  const [hour, minuteOfHour] = clock.split(":").map(Number) as [number, number];
  return momentOf(date(on), hour * 60 + minuteOfHour, offset);
};
const stay = (patient: string, inserted: Moment, removed: Moment): Stay => ({
  patient,
  inserted,
  end: { kind: "removed", at: removed },
});
const days = (inserted: Moment, removed: Moment) => {
  const span = stayInMinutes(stay("1", inserted, removed));
  return typeof span === "string" ? span : (span.to - span.from) / 1440;
};
const march = { from: date("2025-03-01"), to: date("2025-04-01"), fromOffset: 0, toOffset: 0 };

// A change of clocks in Europe: noon on 29 March to noon on 31 March 2025 is 47 hours.
test("elapsed time survives a change of clocks", () => {
  expect(days(at("2025-03-29 12:00", 60), at("2025-03-31 12:00", 120))).toBe(47 / 24);
});

test("a date alone is noon, and never turns the order round", () => {
  expect(days(at("2025-03-03"), at("2025-03-10"))).toBe(7);
  expect(days(at("2025-03-03"), at("2025-03-03"))).toBe(0.5);
  expect(days(at("2025-03-03 18:00"), at("2025-03-03"))).toBe(3 / 24);
  expect(days(at("2025-03-03"), at("2025-03-03 08:00"))).toBe(4 / 24);
  expect(days(at("2025-03-03"), at("2025-03-02 08:00"))).toBe("ends out of order");
});

test("a dwell of nothing is one minute", () => {
  expect(days(at("2025-03-03 09:00"), at("2025-03-03 09:00"))).toBe(1 / 1440);
});

test("a lost line stops at its last known moment", () => {
  const lost: Stay = {
    patient: "1",
    inserted: at("2025-03-03 09:00"),
    end: { kind: "in place", lastKnown: at("2025-03-05 09:00") },
  };
  expect(lineDays([lost], march, "exact line-days", 720).days).toBe(2);
});

test("every count says how many lines it used and how many had no time", () => {
  const stays = [
    stay("1", at("2025-03-03"), at("2025-03-10")),
    stay("2", at("2025-03-03 09:00"), at("2025-03-10 09:00")),
    stay("3", at("2025-03-05 09:00"), at("2025-03-04 09:00")),
    stay("4", at("2025-05-05 09:00"), at("2025-05-09 09:00")),
  ];
  for (const clock of LINE_CLOCKS)
    expect(lineDays(stays, march, clock, 720), clock).toMatchObject({
      clock,
      linesUsed: 2,
      linesGiven: 4,
      linesWithoutTime: 1,
    });
  for (const clock of PATIENT_CLOCKS)
    expect(patientDays(stays, march, clock, 720), clock).toMatchObject({ clock, linesUsed: 2, linesGiven: 4 });
});

test("impossible windows and clocks are refused", () => {
  expect(() => lineDays([], { ...march, to: march.from }, "exact line-days", 720)).toThrow(/end must come after/);
  expect(() => patientDays([], { ...march, to: march.from }, "patient-days at census", 720)).toThrow(
    /end must come after/,
  );
  expect(() => lineDays([], march, "line-days at census", 1440)).toThrow(/census minute/);
  expect(() => momentOf(march.from, 1440, 0)).toThrow(/minute of the day/);
});
