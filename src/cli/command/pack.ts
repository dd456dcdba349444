import { firstOfMonth, monthPack, type Measure, type MonthAction, type MonthPack } from "../../audit/index.ts";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { packPages, safetyStatement } from "../../language/index.ts";
import { linePaperPdf, packSheets } from "../../paper/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { lineTableOrRecord } from "./line-table.ts";
import { targetsOf } from "./targets.ts";

/** The monthly pack's four pages, as text, JSON or a tagged PDF. */
export const packCommand: Command = {
  name: "pack",
  summary: "The monthly pack, four pages, from a line table.",
  usage:
    'veinwright pack (LINES.csv | --store PLACE) [--month 2025-12] [--target A=1.5] [--action "WHAT;OWNER;DUE;MEASURE;done"] [--as-of DAY] [--json] [--pdf FILE]',
  readsFile: true,
  readsRecord: true,
  options: ["--as-of", "--month", "--target", "--action", "--store"],
  run: async (asked) => {
    const found = await packOf(asked);
    if ("exit" in found) return found;
    const { pack, measures } = found;
    if (asked.json)
      return { exit: 0, output: JSON.stringify({ policyVersion: defaultPolicy.version, ...pack }, null, 2) };
    const pages = packPages(pack, measures).flatMap(({ title, lines }, at) => [
      `${at + 1}. ${title}`,
      "",
      ...lines,
      "",
    ]);
    return { exit: 0, output: [...pages, safetyStatement].join("\n") };
  },
  pdf: async (text, _, asked) => {
    const found = await packOf({ ...asked, text, json: false });
    if ("exit" in found) return undefined;
    const printing = { policy: defaultPolicy, printedAt: asked.moment, practice: false };
    return linePaperPdf(packSheets(found.pack, found.measures, printing));
  },
};

type Told = { readonly exit: Exit; readonly output: string };
const usage = (output: string): Told => ({ exit: 64, output });

async function packOf(
  asked: Parameters<typeof lineTableOrRecord>[0],
): Promise<{ readonly pack: MonthPack; readonly measures: readonly Measure[] } | Told> {
  const input = await lineTableOrRecord(asked);
  if ("kind" in input) return { exit: input.exit, output: input.output };
  const { table, measures, limits, surveillance } = input;
  const given = asked.options["month"];
  const month = given === undefined ? firstOfMonth(localDate(table.asOf), -1) : parseCivilDate(`${given}-01`);
  if (!month) return usage(`--month is ${given}; the rule is YYYY-MM. Correct the month.`);
  const targets = targetsOf(asked.options["target"] ?? "");
  if (targets === undefined) return usage("A target is a measure and a rate per 1,000: thrombosis=1.5.");
  const action = actionOf(asked.options["action"], measures);
  if (typeof action === "string") return usage(action);
  const pack = monthPack(table, measures, month, { limits, surveillance }, { targets, ...(action && { action }) });
  return { pack, measures };
}

/** Last month's action as typed: what, who, by when, by which measure, and whether it was done. */
function actionOf(text: string | undefined, measures: readonly Measure[]): MonthAction | string | undefined {
  if (text === undefined) return undefined;
  const [what = "", owner = "", due = "", measure = "", done = ""] = text.split(";").map((part) => part.trim());
  const dueOn: CivilDate | undefined = parseCivilDate(due);
  if (what === "" || owner === "" || !dueOn || !["done", "not done"].includes(done))
    return `--action is "${text}"; the rule is "WHAT;OWNER;YYYY-MM-DD;MEASURE;done" or "not done" last. Correct it.`;
  if (!measures.some(({ id }) => id === measure))
    return `No measure "${measure}". There are: ${measures.map(({ id }) => id).join(", ")}.`;
  return { what, owner, dueOn, measure, done: done === "done" };
}
