import { describe, expect, test } from "vitest";
import { wardMonthDays } from "../../src/audit/index.ts";
import { parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import type { Moment } from "../../src/core/dwell/index.ts";
import { readLineTable } from "../../src/contract/index.ts";
import { wardMonthLines } from "../../src/language/index.ts";
import {
  countLimitsFrom,
  defaultPolicyTable,
  denominatorRules,
  surveillanceDefinitions,
  type CountLimits,
} from "../../src/policy/index.ts";

/** A ward's own months: how much it used lines, and which way of counting may stand. */
const on = (text: string) => parseCivilDate(text) as CivilDate;
const rules = { limits: countLimitsFrom(defaultPolicyTable), surveillance: surveillanceDefinitions[0] as never };
const asOf = { precision: "date", date: on("2025-12-31") } as Moment;
const HEAD =
  "row,line_key,patient_key,placed_at,end_kind,end_at,ward,patient_days,manual_line_days,sampled_line_days,sampled_patient_days";

/** Lines that lie from one noon to another, and months of the ward as its books have them. */
function monthsOf(
  lines: readonly (readonly [patient: string, from: string, to: string])[],
  months: readonly string[],
  asked: typeof rules & { limits: CountLimits } = rules,
) {
  const text = [
    HEAD,
    ...lines.map(([patient, from, to], at) => `line,L${at},${patient},${from},removed,${to},Elm,,,,`),
    ...months.map((cells, at) => `ward month,W${at},,${cells}`),
  ].join("\n");
  const read = readLineTable(text, asOf);
  if (read.kind !== "table") throw new Error(JSON.stringify(read.faults));
  return wardMonthDays(read.table, { from: on("2025-01-01"), to: on("2026-01-01") }, asked, denominatorRules);
}
const month = (n: number, cells: string) => `2025-${String(n).padStart(2, "0")}-01,,,Elm,${cells}`;
/** Ten days at noon in January, February and March each. */
const thirty = [1, 2, 3].map((n) => ["p", `2025-0${n}-03`, `2025-0${n}-13`] as const);

describe("device utilisation", () => {
  test("given patient-days, it is days with a line over them; two lines of one person at once count one", () => {
    const found = monthsOf(
      [
        ["p", "2025-03-01", "2025-03-11"],
        ["p", "2025-03-02", "2025-03-11"],
      ],
      [month(3, "40,,,")],
    );
    expect(found).toMatchObject([{ month: "2025-03", lineDays: 10, countedBy: "machine", utilisation: 0.25 }]);
    expect(found.flatMap(wardMonthLines)).toEqual([
      "Elm, 2025-03: a line on 10 of 40 patient-days, counted by machine. Device utilisation 0.25.",
      "  Machine and hand have not yet agreed for 3 months in a row.",
    ]);
  });

  test("given a count by hand, it comes before the machine's", () => {
    const [found] = monthsOf([["p", "2025-03-01", "2025-03-11"]], [month(3, "40,8,,")]);
    expect(found).toMatchObject({ lineDays: 8, countedBy: "hand", utilisation: 0.2 });
    // the record has 10 of the 8 that were counted: a quarter more, and the rule asks for 5 in 100
    expect(found?.byRecord).toEqual({ days: 10, apart: 0.25, agrees: false });
    expect(wardMonthLines(found as never).slice(0, 2)).toEqual([
      "Elm, 2025-03: a line on 8 of 40 patient-days, counted daily by hand. Device utilisation 0.20.",
      "  By the record 10, 25.0\u202f% more: beyond the limit you set.",
    ]);
  });

  test("given no patient-days, or fewer than days with a line, there is no share and a sentence says why", () => {
    const lines = [["p", "2025-03-01", "2025-03-11"]] as const;
    const said = (cells: string) => monthsOf(lines, [month(3, cells)]).flatMap(wardMonthLines)[0];
    expect(said(",,,")).toBe("Elm, 2025-03: patient-days not written, so no share of days.");
    expect(said("9,,,")).toBe("Elm, 2025-03: more days with a line than days. Look which is wrong.");
    expect(said("0,0,,")).toBe("Elm, 2025-03: no patient-days, so no share of days.");
  });

  test("given a month outside the period, or before any rule, it is not told", () => {
    expect(monthsOf([], ["2024-12-01,,,Elm,40,,,", "2026-01-01,,,Elm,40,,,"])).toEqual([]);
  });
});

describe("which way of counting may stand", () => {
  test("given three months in a row within 5 %, the machine's count stands from the third; at 6 % it does not", () => {
    const hands = (...counted: readonly number[]) =>
      monthsOf(
        thirty,
        counted.map((hand, at) => month(at + 1, `40,${hand},,`)),
      ).map(({ machineFrom }) => machineFrom);
    expect(hands(10, 10, 10)).toEqual([undefined, undefined, "2025-03"]);
    expect(hands(10, 9, 10)).toEqual([undefined, undefined, undefined]);
    const loose = { ...rules, limits: { ...rules.limits, manualAgrees: 0.12 } };
    const wider = monthsOf(
      thirty,
      [1, 2, 3].map((n) => month(n, "40,9,,")),
      loose,
    );
    expect(wider.flatMap(wardMonthLines).at(-1)).toBe(
      "  Machine and hand agreed up to 2025-03: the machine's count may stand.",
    );
  });

  test("given one weekday sampled, its share of patient-days stands for the month; below 75 a month every day is counted", () => {
    const year = (hand: number) => monthsOf([], [month(1, `900,${hand},,`), month(2, `412,,30,100`)]).at(-1);
    expect(year(75)?.sampled).toMatchObject({ may: "may sample" });
    expect(year(75)?.sampled?.lineDays).toBeCloseTo(123.6, 12);
    // a sample that may stand is the ward's count; one that may not leaves it to the table
    expect(year(75)).toMatchObject({ countedBy: "sample" });
    expect(year(75)?.utilisation).toBeCloseTo(0.3, 12);
    expect(year(74)).toMatchObject({ countedBy: "machine", lineDays: 0 });
    expect(year(74)?.sampled?.may).toBe("too few line-days");
    const first = monthsOf([], [month(2, "412,,30,100")]);
    expect(first.flatMap(wardMonthLines).at(-1)).toBe(
      "  Sampled on one weekday: about 124 line-days. Whether 75 a month are reached is not known: count every day.",
    );
    expect(wardMonthLines(year(74) as never).at(-1)).toContain("Fewer than 75 a month: count every day.");
    expect(wardMonthLines(year(75) as never).at(-1)).toContain("The ward has the 75 a month that sampling asks.");
    expect(monthsOf([], [month(2, "412,,30,")])[0]?.sampled?.lineDays).toBe("half of it not written");
    expect(monthsOf([], [month(2, ",,30,100")])[0]?.sampled?.lineDays).toBe("patient-days not written");
    // the same month of the year before counts, one further back does not
    const far = monthsOf([], ["2024-01-01,,,Elm,900,400,,", month(2, "412,,30,100")]);
    expect(far[0]?.sampled?.may).toBe("not known");
  });
});
