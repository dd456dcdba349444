import { describe, expect, test } from "vitest";
import type { CivilDate, Instant } from "../../core/calendar/index.ts";
import { seal, type Json, type Subject } from "../event/index.ts";
import { told } from "../field/index.ts";
import { evolveHistory, initialHistory, type History } from "../fold/index.ts";
import { decideWardMonth, wardMonths } from "./index.ts";

// A ward's month as the record keeps it: common practice, no source.
const subject: Subject = "service:here";
const entry = (more: Readonly<Record<string, Json>> = {}) =>
  ({
    ward: told("Elm"),
    month: told("2026-04"),
    linesCounted: told("lines of this service"),
    patientDays: told(412),
    dailyLineDays: told(120),
    ...more,
  }) as Readonly<Record<string, Json>>;
const write = (
  history: History,
  id: string,
  data: Readonly<Record<string, Json>>,
  type = "WardMonthCounted",
): History => {
  const sealed = seal({
    id,
    subject,
    type,
    shape: 1,
    happenedAt: "2026-05-02T09:00+02:00" as Instant,
    writtenAt: "2026-05-02T09:00+02:00" as Instant,
    author: { initials: "RB", role: "ward nurse", account: "" },
    device: "ward",
    policyVersion: "1",
    seen: history.version,
    data,
  });
  const place = history.version + 1;
  return evolveHistory(history, { ...sealed, position: place, version: place, chainHash: "" });
};
const start = initialHistory(subject);

describe("a ward's counted month", () => {
  test("stands with who signed it, and a value nobody gave is absent and not nought", () => {
    const [month] = wardMonths(write(start, "a", entry({ countedBy: told("R. Bell") })));
    expect(month).toMatchObject({
      ward: "Elm",
      month: "2026-04-01",
      patientDays: 412,
      dailyLineDays: 120,
      sampledWithLine: { missing: "not asked" },
      countedBy: "R. Bell",
      author: { initials: "RB", role: "ward nurse" },
      corrected: 0,
    });
  });

  test("corrected it reads anew, voided it is gone, and another may then be written", () => {
    const once = write(start, "a", entry());
    const mended = write(
      once,
      "b",
      { event: "a", field: "dailyLineDays", value: told(102), why: "two digits turned" },
      "ValueCorrected",
    );
    expect(wardMonths(mended)[0]).toMatchObject({ dailyLineDays: 102, corrected: 1 });
    const gone = write(mended, "c", { event: "a", why: "another ward" }, "EventVoided");
    expect(wardMonths(gone)).toEqual([]);
    const today = "2026-05-02" as CivilDate;
    expect(decideWardMonth(wardMonths(mended), entry() as never, today)).toBe("month-counted");
    expect(decideWardMonth(wardMonths(gone), entry() as never, today)).toBeUndefined();
  });

  test("of two written out of touch the first that the record took stands and names the other, however the ward is spelt", () => {
    const both = write(write(start, "a", entry()), "b", entry({ ward: told(" elm "), dailyLineDays: told(118) }));
    expect(wardMonths(both)).toMatchObject([{ id: "a", dailyLineDays: 120, again: [{ id: "b" }] }]);
    // months of two wards, and two months of one, are four
    const more = ["Elm", "Ash"].flatMap((ward) => ["2026-02", "2026-03"].map((month) => ({ ward, month })));
    const all = more.reduce(
      (history, { ward, month }, at) => write(history, `m${at}`, entry({ ward: told(ward), month: told(month) })),
      start,
    );
    expect(wardMonths(all).map(({ ward, month }) => `${ward} ${month}`)).toEqual([
      "Ash 2026-02-01",
      "Ash 2026-03-01",
      "Elm 2026-02-01",
      "Elm 2026-03-01",
    ]);
  });

  test.each<readonly [string, Readonly<Record<string, Json>>]>([
    ["ward-missing", { ward: told("  ") }],
    ["month-unreadable", { month: told("April") }],
    ["month-not-over", { month: told("2026-05") }],
    ["lines-counted-missing", { linesCounted: { missing: "not known" } }],
    ["patient-days-missing", { patientDays: { missing: "not known" } }],
    ["line-days-missing", { dailyLineDays: { missing: "not asked" } }],
    ["sample-incomplete", { sampledDays: told(4), sampledAll: told(88) }],
    ["more-with-line-than-all", { dailyLineDays: told(413) }],
    ["more-with-line-than-all", { sampledDays: told(4), sampledWithLine: told(89), sampledAll: told(88) }],
    ["more-with-line-than-all", { sampledDays: told(4), sampledWithLine: told(9), sampledAll: told(413) }],
  ])("%s", (code, more) => {
    expect(decideWardMonth([], entry(more) as never, "2026-05-02" as CivilDate)).toBe(code);
  });

  test("a month counted daily, sampled, or both is taken; the last day of it is too early", () => {
    const sample = { sampledDays: told(4), sampledWithLine: told(26), sampledAll: told(88) };
    const decide = (more: Readonly<Record<string, Json>>, on: string) =>
      decideWardMonth([], entry(more) as never, on as CivilDate);
    expect(decide({}, "2026-05-01")).toBeUndefined();
    expect(decide(sample, "2026-05-01")).toBeUndefined();
    expect(decide({ ...sample, dailyLineDays: { missing: "not asked" } }, "2026-05-01")).toBeUndefined();
    expect(decide({}, "2026-04-30")).toBe("month-not-over");
  });
});
