import type { CivilDate } from "../../core/calendar/index.ts";
import type { Measure } from "../measure/index.ts";

/** What last month decided, from the service; the pack puts it first and asks whether it moved anything. */
export interface MonthAction {
  readonly what: string;
  readonly owner: string;
  readonly dueOn: CivilDate;
  readonly measure: Measure["id"];
  readonly done: boolean;
  /** What came of it, as the record says; an action that was typed has none. */
  readonly outcome?: { readonly outcome: string; readonly words: string };
}
