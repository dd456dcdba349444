import {
  firstOfMonth,
  monthPack,
  type HouseWord,
  type LotRow,
  type Measure,
  type MonthAction,
  type MonthPack,
  type Yardstick,
} from "../../audit/index.ts";
import { readMemory } from "../../contract/index.ts";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { packPages, safetyStatement } from "../../language/index.ts";
import { linePaperPdf, packSheets, twoCaseSheet } from "../../paper/index.ts";
import type { PageSize } from "../../paper/line/index.ts";
import { countLimitsFrom, defaultPolicy } from "../../policy/index.ts";
import { readLotTable } from "../../contract/index.ts";
import type { Command, Exit } from "./command.ts";
import { codedFor, legendOf } from "./disguise.ts";
import { faultOutput } from "./fault-output.ts";
import { dateToCount, lineTableOrRecord, YEARS_COUNTED } from "./line-table.ts";
import { TARGET_RULE, targetsOf } from "./targets.ts";

/** The monthly pack's four pages, as text, JSON or a tagged PDF. */
export const packCommand: Command = {
  name: "pack",
  summary: "The monthly pack, four pages and two cases, from a line table and its lots.",
  usage:
    'veinwright pack (LINES.csv | --store PLACE) [LOTS.csv] [--month 2025-12] [--target A=1.5] [--action "WHAT;OWNER;DUE;MEASURE;done"] [--memory EVENTS.json] [--as-of DAY] [--wards codes [--legend yes]] [--json] [--pdf FILE [--paper letter]]',
  readsFile: true,
  readsSeveral: true,
  readsMemory: true,
  readsRecord: true,
  options: ["--as-of", "--month", "--target", "--action", "--store", "--wards", "--legend", "--paper"],
  run: async (asked) => {
    const found = await packOf(asked);
    if ("exit" in found) return found;
    const legend = legendOf(asked.options, found.words);
    if (legend) return legend;
    const { pack, measures, yardsticks } = found;
    if (asked.json)
      return { exit: 0, output: JSON.stringify({ policyVersion: defaultPolicy.version, ...pack }, null, 2) };
    const pages = packPages(pack, measures, yardsticks, countLimitsFrom(defaultPolicy.table)).flatMap(
      ({ title, lines }, at) => [`${at + 1}. ${title}`, "", ...lines, ""],
    );
    return { exit: 0, output: [...pages, safetyStatement].join("\n") };
  },
  pdf: async (text, _, asked) => {
    const found = await packOf({ ...asked, text, json: false });
    if ("exit" in found) return undefined;
    const { pack, measures, yardsticks, size } = found;
    const printing = { policy: defaultPolicy, printedAt: asked.moment, practice: false, size, yardsticks };
    const cases = twoCaseSheet(pack, { policyVersion: defaultPolicy.version, practice: false, size });
    return linePaperPdf([...packSheets(pack, measures, printing), cases]);
  },
};

type Texts = Parameters<Command["run"]>[0]["texts"];
type Told = { readonly exit: Exit; readonly output: string };
const usage = (output: string): Told => ({ exit: 64, output });

interface Found {
  readonly pack: MonthPack;
  readonly measures: readonly Measure[];
  readonly yardsticks: readonly Yardstick[];
  /** What left the page as a code, where wards were asked as codes. */
  readonly words: readonly HouseWord[];
  readonly size: PageSize;
}

/** The lots file beside the lines, where one is named. */
function lotsOf(texts: Texts, json: boolean): readonly LotRow[] | undefined | Told {
  const [, lots, more] = texts;
  if (more) return usage(`A pack reads one line table and one table of lots; "${more.name}" is too many.`);
  if (!lots) return undefined;
  const reading = readLotTable(lots.text);
  return reading.kind === "lots" ? reading.lots : faultOutput(reading.faults, json, "table of lots");
}

async function packOf(
  asked: Parameters<typeof lineTableOrRecord>[0] & { readonly texts: Texts; readonly memory?: string },
): Promise<Found | Told> {
  const input = await lineTableOrRecord(asked);
  if ("kind" in input) return { exit: input.exit, output: input.output };
  const { measures, yardsticks, limits, surveillance } = input;
  const wards = asked.options["wards"] ?? "names";
  if (wards !== "names" && wards !== "codes") return usage(`--wards is ${wards}; the rule is names or codes.`);
  const { table, words } = wards === "codes" ? codedFor(input.table, asked.text) : { table: input.table, words: [] };
  const size = asked.options["paper"] ?? "A4";
  if (size !== "A4" && size !== "letter") return usage(`--paper is ${size}; the rule is A4 or letter.`);
  const given = asked.options["month"];
  const month = given === undefined ? firstOfMonth(localDate(table.asOf), -1) : dateToCount(`${given}-01`);
  // a year of twelve months before it and the day after it must be days that can be written
  if (!month) return usage(`--month is ${given}; the rule is YYYY-MM, ${YEARS_COUNTED}. Correct the month.`);
  const day = localDate(table.asOf);
  if (month > day)
    return usage(`The month ${given} begins after the day of the table, ${day}. Ask for an earlier month.`);
  const targets = targetsOf(asked.options["target"] ?? "", measures);
  if (targets === undefined) return usage(TARGET_RULE);
  const action = actionOf(asked.options["action"], measures);
  if (typeof action === "string") return usage(action);
  const lots = lotsOf(asked.texts, asked.json);
  if (lots && "exit" in lots) return lots;
  const kept = asked.memory === undefined ? undefined : readMemory(asked.memory);
  if (kept?.kind === "faults") return faultOutput(kept.faults, asked.json, "memory of the service");
  // a file of events named beside the record goes before what the record itself remembers
  const memory = kept?.memory ?? input.memory;
  const extras = {
    targets,
    ...(action && { action }),
    ...(lots && { lots }),
    ...(memory && { memory }),
  };
  const pack = monthPack(table, measures, month, { limits, surveillance }, extras);
  return { pack, measures, yardsticks, words, size };
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
