import { firstOfMonth, monthPack } from "../../audit/index.ts";
import { parseCivilDate } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { packPages, safetyStatement } from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { lineTableInput } from "./line-table.ts";
import { targetsOf } from "./targets.ts";

/** The numbers of the monthly pack's four pages, as text or JSON. */
export const packCommand: Command = {
  name: "pack",
  summary: "The numbers of the monthly pack, four pages, from a line table.",
  usage: "veinwright pack LINES.csv [--month 2025-12] [--target A=1.5] [--as-of DAY] [--json]",
  readsFile: true,
  options: ["--as-of", "--month", "--target"],
  run: (asked) => {
    const input = lineTableInput(asked);
    if ("kind" in input) return { exit: input.exit, output: input.output };
    const { table, measures, limits, surveillance } = input;
    const given = asked.options["month"];
    const month = given === undefined ? firstOfMonth(localDate(table.asOf), -1) : parseCivilDate(`${given}-01`);
    if (!month) return { exit: 64, output: `--month is ${given}; the rule is YYYY-MM. Correct the month.` };
    const targets = targetsOf(asked.options["target"] ?? "");
    if (targets === undefined)
      return { exit: 64, output: "A target is a measure and a rate per 1,000: thrombosis=1.5." };
    const pack = monthPack(table, measures, month, { limits, surveillance }, { targets });
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
};
