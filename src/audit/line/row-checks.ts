import { dayNumber } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { missing } from "../../core/missing/index.ts";
import type { Happening, LineView, PatientView } from "../../register/index.ts";
import type { RowChecks, RowEvent } from "./line-row.ts";
import { maybe } from "./maybe.ts";
import { momentOfInstant } from "./moment-of-instant.ts";

/** Values of the placing that a figure may split by, under the names of their columns. */
const COLUMN_OF: Readonly<Record<string, string>> = {
  arm: "side",
  vein: "vein",
  french: "size_fr",
  lumens: "lumens",
  veinDiameterMm: "vein_diameter_mm",
  veinEntryCm: "position_percent",
  armLengthCm: "position_percent",
  attempts: "attempts",
  inserter: "inserter_key",
  ward: "ward",
  setting: "setting",
  catheter: "catheter_key",
};

/**
 * What the rules of quality read of a line in the register. The record keeps no link from a line to the one it replaced;
 * the rule then goes by the reason of removal. Its times are kept to the minute.
 */
export function checksOfLine(line: LineView, patient: PatientView | undefined, events: readonly RowEvent[]): RowChecks {
  return {
    insideCm: maybe(line.said.insideCm),
    weightKg: maybe(patient?.details.weightKg),
    replaces: missing("not asked"),
    timeKnownTo: "minute",
    writtenAfter: writtenAfter(line.placed, events),
  };
}

/** Values of the placing corrected after the day of the line's first event, when what became of it was known. */
function writtenAfter(placed: Happening | undefined, events: readonly RowEvent[]): readonly string[] {
  if (placed === undefined || events.length === 0) return [];
  const first = Math.min(...events.map(({ at }) => dayNumber(localDate(at))));
  const late = placed.struck.filter(({ at }) => dayNumber(localDate(momentOfInstant(at))) > first);
  return [...new Set(late.flatMap(({ field }) => COLUMN_OF[field] ?? []))].sort();
}
