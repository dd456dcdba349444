import type { Instant } from "../../core/calendar/index.ts";
import { fromPlanNote, importedNote, sayRecorded } from "../../language/index.ts";
import { lineEvents, outsideNow, type LineView, type Recorded, type Seen } from "../../register/index.ts";
import type { SheetRow } from "./sheet.ts";

export type PlacingField = keyof typeof lineEvents.LineInserted;

/** A value of the placing as a row: never blank, its kind of missing or its plan said beside it. */
export function placingRow(label: string, line: LineView, field: PlacingField): SheetRow {
  const recorded = line.said[field] as Recorded<unknown> | undefined;
  return { label, ...saidValue(lineEvents.LineInserted[field], recorded) };
}

/** The words of a value and, apart from them, what it does not rest on. */
export function saidValue(
  field: Parameters<typeof sayRecorded>[0],
  recorded: Recorded<unknown> | undefined,
): { readonly value: string; readonly note: string } {
  if (recorded === undefined || "missing" in recorded) return { value: sayRecorded(field, recorded), note: "" };
  const value = sayRecorded(field, { value: recorded.value, from: "measured" });
  return { value, note: recorded.from === "plan" ? fromPlanNote : recorded.from === "imported" ? importedNote : "" };
}

export interface LengthNow {
  readonly value: string;
  readonly note: string;
  readonly cm: number | undefined;
  readonly at: Instant | undefined;
}

/** A length as it stands now; where none was ever confirmed, what the placing says instead. */
export function lengthNow(line: LineView, field: "insideCm" | "outsideCm"): LengthNow {
  const seen: Seen<number> | undefined = field === "insideCm" ? line.inside : outsideNow(line);
  const described = lineEvents.LineInserted[field];
  if (seen) {
    return {
      value: sayRecorded(described, { value: seen.value, from: "measured" }),
      note: "",
      cm: seen.value,
      at: seen.at,
    };
  }
  return { ...saidValue(described, line.said[field]), cm: undefined, at: undefined };
}
