import {
  dwellTable,
  lastTwelveMonths,
  periodOf,
  readMeasures,
  readYardsticks,
  serviceHistory,
  STRATA,
  type AuditTable,
  type Measure,
  type Period,
  type StratumName,
  type Yardstick,
} from "../../audit/index.ts";
import { FIRST_YEAR, LAST_YEAR, readLineTable } from "../../contract/index.ts";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { localDate, ruleInForce } from "../../core/dwell/index.ts";
import { allLater, sayDay, sayMeasureFault, sayYardstickFault } from "../../language/index.ts";
import { lineRulesFrom } from "../../paper/line/index.ts";
import {
  countLimitsFrom,
  cultureLimitsFrom,
  defaultPolicy,
  surveillanceDefinitions,
  type CountLimits,
} from "../../policy/index.ts";
import { serviceMemory, type ServiceMemory } from "../../register/index.ts";
import { mustBeThere, openStore } from "../../store/index.ts";
import { recordRefused } from "./record-refused.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

export interface LineTableInput {
  readonly table: AuditTable;
  readonly period: Period;
  readonly strata: readonly StratumName[];
  readonly measures: readonly Measure[];
  readonly yardsticks: readonly Yardstick[];
  readonly limits: CountLimits;
  readonly surveillance: (typeof surveillanceDefinitions)[number];
  /** What the record keeps of the service's own numbers; undefined for a table that came as a file. */
  readonly memory?: ServiceMemory;
}

export type LineTableAsked = Pick<Parameters<Command["run"]>[0], "text" | "json" | "today" | "options">;
type Refused = { readonly kind: "refused"; readonly exit: Exit; readonly output: string };

export const LINE_TABLE_OPTIONS: readonly string[] = ["--as-of", "--from", "--to", "--by"];
const limits = countLimitsFrom(defaultPolicy.table);

/** A slip of the hand in a year would ask for thousands of years day by day. */
export const YEARS_COUNTED = `from ${FIRST_YEAR} to ${LAST_YEAR}`;
/** A typed date that can be counted from or to; undefined for any other text. */
export function dateToCount(text: string): CivilDate | undefined {
  const date = parseCivilDate(text);
  const year = Number(date?.slice(0, 4));
  return year >= FIRST_YEAR && year <= LAST_YEAR ? date : undefined;
}

const usage = (output: string): Refused => ({ kind: "refused", exit: 64, output });

/** What every command on a line table reads: the table, its period, the strata, the measures and the limits. */
export function lineTableInput(asked: LineTableAsked): LineTableInput | Refused {
  return inputFrom(asked, (asOf) => {
    const reading = readLineTable(asked.text, { precision: "date", date: asOf ?? asked.today });
    return reading.kind === "faults"
      ? { kind: "refused", ...faultOutput(reading.faults, asked.json, "line table") }
      : reading.table;
  });
}

/** The same of the record itself, through its dwell table, where a store is named in the place of a file. */
export async function lineTableOrRecord(
  asked: LineTableAsked & Pick<Parameters<Command["run"]>[0], "moment" | "store">,
): Promise<LineTableInput | Refused> {
  const { options, moment, store } = asked;
  if (options["store"] === undefined) return lineTableInput(asked);
  if (options["as-of"] !== undefined) return usage("The record is counted as it stands now. Leave --as-of out.");
  let table: AuditTable;
  let memory: ServiceMemory;
  try {
    mustBeThere(store);
    const record = await openStore(store);
    try {
      table = await dwellTable(
        record,
        {
          rules: lineRulesFrom(defaultPolicy),
          cultures: cultureLimitsFrom(defaultPolicy.table),
          policyVersion: defaultPolicy.version,
        },
        moment,
      );
      memory = serviceMemory(await serviceHistory(record));
    } finally {
      await record.close();
    }
  } catch (error) {
    return { kind: "refused", exit: 65, output: recordRefused(error, store).said };
  }
  const input = inputFrom(asked, () => table);
  return "kind" in input ? input : { ...input, memory };
}

function inputFrom(
  { options }: LineTableAsked,
  tableAt: (asOf: CivilDate | undefined) => AuditTable | Refused,
): LineTableInput | Refused {
  const dates: Record<string, CivilDate | undefined> = {};
  for (const name of ["as-of", "from", "to"]) {
    const given = options[name];
    dates[name] = given === undefined ? undefined : dateToCount(given);
    if (given !== undefined && dates[name] === undefined)
      return usage(`--${name} is ${given}; the rule is YYYY-MM-DD, ${YEARS_COUNTED}. Correct the date.`);
  }
  const asked = (options["by"] ?? "")
    .split(",")
    .map((name) => name.trim())
    .filter(Boolean);
  const odd = asked.find((name) => !STRATA.some((one) => one === name));
  if (odd !== undefined) return usage(`Cannot split by "${odd}". There are: ${STRATA.join(", ")}.`);
  const table = tableAt(dates["as-of"]);
  if ("kind" in table) return table;
  const { asOf, lines } = table;
  const day = localDate(asOf);
  const isLater = ({ placed }: (typeof lines)[number]): boolean => placed !== undefined && localDate(placed) > day;
  if (dates["as-of"] !== undefined && lines.length > 0 && lines.every(isLater))
    return usage(allLater(lines.length, sayDay(day)));
  const read = readMeasures();
  if (read.kind === "faults") return { kind: "refused", exit: 65, output: read.faults.map(sayMeasureFault).join("\n") };
  const found = readYardsticks(read.measures);
  if (found.kind === "faults")
    return { kind: "refused", exit: 65, output: found.faults.map(sayYardstickFault).join("\n") };
  const year = lastTwelveMonths(table);
  const [from, to] = [dates["from"] ?? year.from, dates["to"] ?? year.to];
  if (from >= to) return usage(`The period runs from ${from} to ${to}; the end must come after the start.`);
  if (from > day)
    return usage(`The period begins on ${from}, after the day of the table, ${day}. Ask for an earlier period.`);
  const period = periodOf(table, from, to);
  const surveillance = ruleInForce(surveillanceDefinitions, from);
  if (!surveillance) return usage(`No surveillance definition of ${from} is kept; ask for a later period.`);
  const { measures } = read;
  const { yardsticks } = found;
  return { table, period, strata: asked as StratumName[], measures, yardsticks, limits, surveillance };
}
