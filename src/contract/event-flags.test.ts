import { expect, test } from "vitest";
import { lineTableCsv } from "../audit/index.ts";
import { parseCivilDate, type CivilDate } from "../core/calendar/index.ts";
import { momentOf } from "../core/dwell/index.ts";
import { readLineTable } from "./index.ts";

// docs/reference/line-table.md: an infection may add clinical=yes surveillance=no paired=not known
test("a flag that is not known stays not known: it is no 'no'", () => {
  const text =
    "line_key,patient_key,placed_at,end_kind,events\nA,P,2025-05-01,in place,infection@2025-05-09 clinical=not known surveillance=no paired=not asked\n";
  const reading = readLineTable(text, momentOf(parseCivilDate("2026-01-01") as CivilDate, 60, 60));
  const [event] = reading.kind === "faults" ? [] : (reading.table.lines[0]?.events ?? []);
  expect(event).toMatchObject({
    clinical: { missing: "not known" },
    surveillance: false,
    pairedCulture: { missing: "not asked" },
  });
});

// docs/reference/line-table.md: mucosal=yes is a sub-class of surveillance infections
test("a mucosal barrier is kept, not asked where it is not written, and refused where the definition is not met", () => {
  const read = (flags: string) =>
    readLineTable(
      `line_key,patient_key,placed_at,end_kind,events\nA,P,2025-05-01,in place,infection@2025-05-09 ${flags}\n`,
      momentOf(parseCivilDate("2026-01-01") as CivilDate, 60, 60),
    );
  const first = (flags: string) => {
    const reading = read(flags);
    return reading.kind === "faults" ? reading.faults.map(({ code }) => code) : reading.table.lines[0]?.events[0];
  };
  expect(first("surveillance=yes mucosal=yes")).toMatchObject({ mucosal: true });
  expect(first("surveillance=yes mucosal=not known")).toMatchObject({ mucosal: { missing: "not known" } });
  expect(Object.keys(first("surveillance=yes mucosal=not asked") ?? {})).not.toContain("mucosal");
  expect(first("surveillance=no mucosal=yes")).toEqual(["contradicts"]);
  expect(first("mucosal=yes")).toEqual(["contradicts"]);
});

// docs/reference/line-table.md: kind @ not known where only its day is not known
test("an event of which only the day is not known is read, written again, and its flags are refused", () => {
  const asOf = momentOf(parseCivilDate("2026-01-01") as CivilDate, 60, 60);
  const head = "line_key,patient_key,placed_at,end_kind,events";
  const read = (events: string) => readLineTable(`${head}\nA,P,2025-05-01,in place,${events}\n`, asOf);
  const reading = read("migration@not known; occlusion@2025-05-09; Occlusion @ not known");
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  const [line] = reading.table.lines;
  expect(line?.undated).toEqual(["occlusion", "migration"]);
  expect(line?.events.map(({ kind }) => kind)).toEqual(["occlusion"]);
  const again = readLineTable(lineTableCsv(reading.table.lines), asOf);
  expect(again.kind === "faults" ? [] : again.table.lines[0]?.undated).toEqual(["occlusion", "migration"]);
  for (const cell of ["infection@not known clinical=yes", "rash@not known", "infection@not asked"]) {
    const faulty = read(cell);
    expect(faulty.kind === "faults" && faulty.faults.map(({ code }) => code), cell).toEqual(["not-in-list"]);
  }
});
