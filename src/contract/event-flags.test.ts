import { expect, test } from "vitest";
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
