import type { CivilDate } from "../../core/calendar/index.ts";
import {
  fieldOf,
  matchingQuestions,
  suggestMatching,
  type Matching,
  type Sheet,
  type SuggestedMatching,
} from "../../spreadsheet/index.ts";

/**
 * One house writes its days one way: what a person has just said of one column of days is set in the columns that still
 * ask it. Years of two digits are set to this century up to today, for no line was placed in the last one; a birthday is
 * asked. Each stands to be seen and changed, and each column still wants its tick.
 */
export function answeredAlike(
  before: Matching,
  next: Matching,
  sheet: Pick<Sheet, "headers" | "sample">,
  today: CivilDate,
): Matching {
  const said = next.columns.find(
    ({ header, order }) => order !== undefined && order !== before.columns.find((one) => one.header === header)?.order,
  )?.order;
  const ordered = said === undefined ? next : answer(next, sheet, "order not said", () => ({ order: said }));
  const year = Number(today.slice(2, 4));
  return answer(ordered, sheet, "century not said", (field) => (field === "birthDate" ? {} : { twoDigitUpTo: year }));
}

/** What every column is taken for, with the century of its years. */
export function suggestedAlike(sheet: Omit<Sheet, "rows">, today: CivilDate): SuggestedMatching {
  const suggested = suggestMatching(sheet);
  return { ...suggested, matching: answeredAlike(suggested.matching, suggested.matching, sheet, today) };
}

function answer(
  matching: Matching,
  sheet: Pick<Sheet, "headers" | "sample">,
  code: "order not said" | "century not said",
  say: (field: Matching["columns"][number]["field"]) => Partial<Matching["columns"][number]>,
): Matching {
  const asking = new Set(matchingQuestions(matching, sheet).flatMap((one) => (one.code === code ? [one.header] : [])));
  return {
    ...matching,
    columns: matching.columns.map((column) =>
      asking.has(column.header) && column.field !== "left out" && fieldOf(column.field).kind === "date"
        ? { ...column, ...say(column.field) }
        : column,
    ),
  };
}
