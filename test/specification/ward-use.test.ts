import { describe, expect, test } from "vitest";
import { countedWardMonths, readMeasures, wardMonthDays, wardUse, type AuditTable } from "../../src/audit/index.ts";
import { parseCivilDate, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import type { Moment } from "../../src/core/dwell/index.ts";
import { readLineTable } from "../../src/contract/index.ts";
import { GREY_INK, wardUsePlate } from "../../src/figure/index.ts";
import { wardUseLines } from "../../src/language/index.ts";
import {
  countLimitsFrom,
  defaultPolicyTable,
  denominatorRules,
  surveillanceDefinitions,
} from "../../src/policy/index.ts";
import { told, type Subject } from "../../src/register/index.ts";
import { historyOfEntries, inventedEntry, WARD_NURSE } from "../invented-entry.ts";

/** Wards side by side over the months they counted: share of days, limits, and infections on that clock. */
const on = (text: string) => parseCivilDate(text) as CivilDate;
const limits = countLimitsFrom(defaultPolicyTable);
const rules = { limits, surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number] };
const reading = readMeasures();
const measures = reading.kind === "measures" ? reading.measures : [];
const asOf = { precision: "date", date: on("2025-12-31") } as Moment;
const period = { from: on("2025-01-01"), to: on("2026-01-01"), fromOffset: 0, toOffset: 0 };
const HEAD =
  "row,line_key,patient_key,placed_at,end_kind,end_at,ward,patient_days,manual_line_days,sampled_line_days,sampled_patient_days,sampled_days,every_central_line,events";

const line = (key: string, ward: string, from: string, to: string, events = "none") =>
  `line,${key},P${key},${from},removed,${to},${ward},,,,,,,${events}`;
const month = (ward: string, n: number, cells: string) =>
  `ward month,${ward}${n},,2025-${String(n).padStart(2, "0")}-01,,,${ward},${cells},`;
function tableOf(...rows: readonly string[]): AuditTable {
  const read = readLineTable([HEAD, ...rows].join("\n"), asOf);
  if (read.kind !== "table") throw new Error(JSON.stringify(read.faults));
  return read.table;
}
const useOf = (table: AuditTable) =>
  wardUse(table, wardMonthDays(table, period, rules, denominatorRules), measures, period, rules);

describe("wards by their own days", () => {
  test("a share is all line-days over all patient-days, its limits come from how its months differ", () => {
    const twoLevels = [1, 2, 3, 4, 5, 6].map((n) => month("Elm", n, `400,${n % 2 === 0 ? 80 : 120},,,,`));
    const [elm] = useOf(tableOf(...twoLevels)).wards;
    // by hand: 600 of 2,400; each month 20 off 0.25 x 400, so se = sqrt(6/5 x 6 x 400) / 2400 and t of 5 is 2.5706
    const se = Math.sqrt((6 / 5) * 6 * 400) / 2400;
    expect(elm).toMatchObject({ lineDays: 600, patientDays: 2400, utilisation: 0.25, months: 6 });
    expect(elm?.limits?.lower).toBeCloseTo(0.25 - 2.570582 * se, 6);
    expect(elm?.limits?.upper).toBeCloseTo(0.25 + 2.570582 * se, 6);
    const five = useOf(tableOf(...twoLevels.slice(0, 5)));
    expect(five.wards[0]?.limits).toBeUndefined();
    expect(wardUseLines(five)).toContain("  No limits: they need 6 months.");
  });

  test("infections stand over the ward's own days, all and without injured mucosal barriers; unasked ones may count", () => {
    const at = (day: string, more: string) => `infection@2025-03-${day} clinical=yes surveillance=yes${more}`;
    const table = tableOf(
      line("a", "Elm", "2025-03-01", "2025-03-20", at("10", " mucosal=yes")),
      line("b", "Elm", "2025-03-01", "2025-03-20", at("12", " mucosal=no")),
      line("c", "Elm", "2025-03-01", "2025-03-20", at("14", "")),
      // of another ward, and of a month that Elm did not count
      line("d", "Ash", "2025-03-01", "2025-03-20", at("10", " mucosal=no")),
      line("e", "Elm", "2025-05-01", "2025-05-20", "infection@2025-05-09 clinical=yes surveillance=yes mucosal=no"),
      month("Elm", 3, "300,60,,,,"),
    );
    const use = useOf(table);
    const rates = use.wards[0]?.rates ?? [];
    expect(rates.map(({ measure, events, mayCount }) => [measure, events, mayCount])).toEqual([
      ["infection-surveillance", 3, 0],
      ["infection-without-mucosal", 1, 1],
    ]);
    expect(rates[0]?.perThousand).toBeCloseTo(50, 12);
    // exact limits of 3: 0.618672 and 8.767273 (R: poisson.test(3)$conf.int)
    expect(rates[0]?.limits.lower).toBeCloseTo((1000 * 0.618672123) / 60, 5);
    expect(rates[0]?.limits.upper).toBeCloseTo((1000 * 8.76727307) / 60, 5);
    expect(use.notCounted).toEqual(["Ash"]);
    expect(wardUseLines(use).at(-1)).toBe("Not counted: Ash.");
  });

  test("every central line of a ward gives a share and no rate, and the record is not held against it", () => {
    const table = tableOf(line("a", "Oak", "2025-03-01", "2025-03-20"), month("Oak", 3, "300,180,,,,yes"));
    const use = useOf(table);
    expect(use.wards[0]).toMatchObject({ everyCentralLine: true, utilisation: 0.6, rates: undefined });
    expect(wardUseLines(use)).toContain("  No rate: the record holds infections of this service's lines alone.");
    const [found] = wardMonthDays(table, period, rules, denominatorRules);
    expect(found?.byRecord).toBeUndefined();
  });

  test("the plate names each ward once with what it is over; one that has not counted is grey and says so", () => {
    const use = useOf(
      tableOf(
        line("a", "Ash", "2025-03-01", "2025-03-20"),
        ...[1, 2, 3, 4, 5, 6].map((n) => month("Elm", n, `400,${80 + n},,,,`)),
      ),
    );
    const figure = wardUsePlate({ ...use, id: "w", width: 328, ink: GREY_INK });
    expect(figure.svg.match(/data-ward="Elm"/g)).toHaveLength(1);
    expect(figure.svg).toContain("501 of 2,400");
    expect(figure.svg).toContain('data-not-counted="Ash"');
    expect(figure.svg).toContain("not counted");
    expect(figure.table.rows.map(([ward]) => ward)).toEqual(["Elm", "Ash"]);
  });
});

describe("from the record", () => {
  test("an entry of the service is a row of the table, at its moment and not before", () => {
    const subject: Subject = "service:here";
    const at = "2025-04-02T09:00+02:00" as Instant;
    const sealed = inventedEntry({
      id: "w1",
      subject,
      type: "WardMonthCounted",
      at,
      author: WARD_NURSE,
      data: {
        ward: told("Elm"),
        month: told("2025-03"),
        linesCounted: told("lines of this service"),
        patientDays: told(412),
        sampledDays: told(4),
        sampledWithLine: told(30),
        sampledAll: told(100),
      },
    });
    const history = historyOfEntries(subject, [sealed]);
    expect(countedWardMonths(history, "2025-04-02T08:59+02:00" as Instant)).toEqual([]);
    const [row] = countedWardMonths(history, at);
    expect(row).toMatchObject({ key: "w1", patientDays: 412, sampledDays: 4, everyCentralLine: false });
    const before = [1, 2].map((n) => month("Elm", n, "400,90,,,,"));
    const table = tableOf(...before);
    const whole = { ...table, wardMonths: [...(table.wardMonths ?? []), row as NonNullable<typeof row>] };
    const use = useOf(whole);
    expect(use.wards[0]?.counted).toEqual({ hand: 2, sample: 1, machine: 0, sampledDays: 4 });
    expect(wardUseLines(use)).toContain("  Counted daily in 2 months; sampled on 4 days in 1 month.");
  });
});
