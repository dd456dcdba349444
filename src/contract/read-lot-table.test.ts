import { expect, test } from "vitest";
import type { CivilDate } from "../core/calendar/index.ts";
import { readLineTable } from "./read-line-table.ts";
import { readLotTable } from "./read-lot-table.ts";

// Tables as somebody typed them. Common practice, no source.
const lots = (...rows: readonly string[]) =>
  readLotTable(["lot_key,expires_on,received,discarded,recalled", ...rows].join("\r\n"));
const told = (read: { readonly kind: string; readonly faults?: readonly { path: string; code: string }[] }) =>
  read.faults?.map(({ path, code }) => `${path}: ${code}`) ?? read.kind;

test("a table of lots without a row says nothing of recalls, and is refused", () => {
  expect(told(lots())).toEqual([": header-alone"]);
  expect(told(lots("L67399,2026-02-28,40,1,no"))).toBe("lots");
});

test("two rows that a sticker does not tell apart are one lot: one of them may be called back and the other not", () => {
  expect(told(lots("LO1,2026-02-28,5,,no", "L01,2026-02-28,5,,yes"))).toEqual(["row 3, lot_key: twice"]);
});

test.each(["0000-01-01", "0001-01-01", "1879-12-31", "2151-01-01", "9999-12-31", "9999-12-31T10:00+00:00"])(
  "the date %s is none: a lot that never expires, a line in for centuries, a clot before its line",
  (date) => {
    expect(told(lots(`L67399,${date},40,1,no`))).toEqual(["row 2, expires_on: no-such-date"]);
    const asOf = { precision: "date", date: "2026-01-01" as CivilDate } as const;
    const head = "line_key,patient_key,placed_at,end_kind,end_at,events";
    const line = (placed: string, end: string, events: string) =>
      told(readLineTable(`${head}\r\nK1,P1,${placed},removed,${end},${events}\r\n`, asOf));
    expect(line(date, "2025-03-04", "none")).toEqual(["row 2, placed_at: no-such-date"]);
    expect(line("2025-03-04", date, "none")).toEqual(["row 2, end_at: no-such-date"]);
    expect(line("2025-03-04", "2025-03-09", `thrombosis@${date}`)).toEqual(["row 2, events: no-such-date"]);
    expect(line("2025-03-04", "2025-03-09", "thrombosis@2025-03-08")).toBe("table");
  },
);

// U+FFFD stands where a decoder of UTF-8 met another encoding: WHATWG Encoding Standard, section 4.1 (from memory)
test("letters that are not UTF-8 are refused by their row: two wards that differ in one would be one", () => {
  const asOf = { precision: "date", date: "2026-01-01" as CivilDate } as const;
  const table = Buffer.from("line_key,patient_key,placed_at,ward\r\nK1,P1,2025-01-01,Ch\u00eane\r\n", "latin1");
  expect(told(readLineTable(table.toString("utf8"), asOf))).toEqual(["row 2: not-in-list"]);
});

// Unicode 15, section 3.9 D75: half of a pair alone has no UTF-8, and a writer puts U+FFFD in its place (from memory)
test.each(["\ud800", "\udc00", "x\ud83d"])(
  "half a character in a key is a fault of its column: two patients so named would become one",
  (half) => {
    const asOf = { precision: "date", date: "2026-01-01" as CivilDate } as const;
    const head = "line_key,patient_key,placed_at,ward,lot_key";
    const row = (end: string) => readLineTable(`${head}\r\nK1,P${end},2025-01-01,W${end},L${end}`, asOf);
    expect(told(row(half))).toEqual(["patient_key", "ward", "lot_key"].map((name) => `row 2, ${name}: hidden-sign`));
    expect(told(lots(`L${half},2026-02-28,40,1,no`))).toEqual(["row 2, lot_key: hidden-sign"]);
    expect(told(row("\u{1f600}"))).toBe("table");
  },
);

test("a file of a million columns is one fault", () => {
  expect(told(readLotTable(`${"c,".repeat(1_000_000)}\n`))).toEqual(["row 1: too-large"]);
});
