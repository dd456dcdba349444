import { parseCivilDate, parseInstant } from "../../core/calendar/index.ts";
import type { Field, LineRefusal, MissingField, Recorded } from "../../register/index.ts";
import { sayDay, sayMoment } from "./moment.ts";
import { amount } from "./number.ts";
import { sayField, sayOption } from "./record-words.ts";

/** A recorded value in words, with what it rests on where that is not a measurement. */
export function sayRecorded(field: Field, recorded: Recorded<unknown> | undefined): string {
  if (recorded === undefined) return "not asked";
  if ("missing" in recorded) return recorded.missing;
  const words = sayValue(field, recorded.value);
  if (recorded.from === "plan") return `${words} (from the plan, not confirmed)`;
  return recorded.from === "imported" ? `${words} (imported)` : words;
}

function sayValue(field: Field, value: unknown): string {
  switch (field.kind) {
    case "number": {
      const number = value as number;
      return amount(number, field.unit === "times" ? "" : field.unit, decimalsOf(number));
    }
    case "yes-no":
      return value === true ? "yes" : "no";
    case "choice":
      return sayOption(String(value));
    case "choices":
      return (value as readonly string[]).map(sayOption).join(", ");
    case "date": {
      const day = parseCivilDate(String(value));
      return day ? sayDay(day) : String(value);
    }
    case "instant": {
      const moment = parseInstant(String(value));
      return moment ? sayMoment(moment) : String(value);
    }
    case "rows":
      return `${(value as readonly unknown[]).length} written`;
    case "count":
    case "name":
    case "reference":
    case "text":
      return String(value);
    default:
      return field satisfies never;
  }
}

/** As many decimals as were written, two at most. */
const decimalsOf = (value: number): number =>
  Number.isInteger(value)
    ? Math.abs(value) >= 10
      ? 0
      : 1
    : Math.abs(value * 10 - Math.round(value * 10)) < 1e-9
      ? 1
      : 2;

/** Why something was not written, and what to do. */
const REFUSALS: Readonly<Record<LineRefusal, string>> = {
  "line-already-placed": "This line was placed already. Correct that entry instead.",
  "no-line-yet": "No line is placed here yet. Write the placing first.",
  "line-already-out": "This line is out already. Check the time, or correct the removal.",
  "before-the-line-was-placed": "That is before the line was placed. Check the date and time.",
  "in-the-future": "That time is still to come. Check the date and this device's clock.",
  "owner-place-and-date-needed": "Name an owner, a place and a next date. A line is never left without.",
  "next-date-before-today": "The next date is past. Choose today or later.",
  "release-needs-uses-and-names": "Tick what it is released for. Write who releases and who was told.",
  "release-needs-a-tip-reading": "No tip reading is written. Read the tip, then release.",
  "release-sides-differ": "Plan, placing and film do not agree on the arm. Two people must settle it.",
  "two-different-names-needed": "Two different people must put their names.",
  "release-over-tip-stop": "Not on this tip. Correct and film again, or two people pass this stop.",
  "override-needs-a-reason": "Why is it released all the same? Write the reason.",
  "override-needs-another-role": "Your role may not pass this stop. Call an inserter or the lead.",
  "release-over-open-sign": "What ended it is not settled. Conclude the infection, or two people pass this stop.",
};
export const sayLineRefusal = (code: LineRefusal): string => REFUSALS[code];

/** What an entry still lacks, what matters most first. */
export function sayMissing(missing: readonly MissingField[]): string {
  const must = missing.filter(({ need, why }) => need === "must" && (why === "not asked" || why === "from plan"));
  const shown = (must.length > 0 ? must : missing.filter(({ why }) => why !== "refused" && why !== "not known")).slice(
    0,
    4,
  );
  if (shown.length === 0) return "Nothing that matters is missing.";
  const names = shown.map(
    ({ field, why }) => `${sayField(field).toLowerCase()}${why === "from plan" ? " (confirm)" : ""}`,
  );
  const more = (must.length > 0 ? must.length : missing.length) - shown.length;
  return `Still missing: ${names.join(", ")}${more > 0 ? `, and ${more} more` : ""}.`;
}
