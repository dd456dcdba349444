import {
  COMPARED,
  firstOfMonth,
  gapChart,
  GAP_FORMS,
  monitorService,
  periodOf,
  type Measure,
} from "../../audit/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { gapLines, monitorLines, safetyStatement } from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { dateToCount, lineTableInput, YEARS_COUNTED } from "./line-table.ts";
import { TARGET_RULE, targetsOf } from "./targets.ts";

/** The service watched by its own base, under one false-alarm budget. */
export const chartCommand: Command = {
  name: "chart",
  summary: "Watch the service by its own base: sums, charts, gaps and signals.",
  usage:
    "veinwright chart LINES.csv [--measure A,B] [--target A=1.5,B=0.8] [--base-from DAY] [--from DAY] [--to DAY] [--as-of DAY] [--gaps exponential|power] [--json]",
  readsFile: true,
  options: ["--as-of", "--from", "--to", "--measure", "--base-from", "--target", "--gaps"],
  run: (asked) => {
    const input = lineTableInput(asked);
    if ("kind" in input) return { exit: input.exit, output: input.output };
    const { table, period, limits, surveillance } = input;
    const names = asked.options["measure"]?.split(",").map((name) => name.trim()) ?? [...COMPARED];
    const found = names.map((name) =>
      input.measures.find(({ id, numerator }) => id === name && numerator.count === "events"),
    );
    const odd = names.find((_, at) => found[at] === undefined);
    if (odd !== undefined)
      return { exit: 64, output: `No measure "${odd}" that counts events. See the command audit.` };
    const given = asked.options["base-from"];
    const first = table.lines
      .flatMap(({ placed }) => (placed ? [localDate(placed)] : []))
      .reduce((least, date) => (date < least ? date : least), period.from);
    const from = given === undefined ? firstOfMonth(first, 0) : dateToCount(given);
    if (from === undefined)
      return { exit: 64, output: `--base-from is ${given}; the rule is YYYY-MM-DD, ${YEARS_COUNTED}.` };
    if (from >= period.from)
      return {
        exit: 3,
        output: `The base would begin on ${from}, not before ${period.from}. Name a later --from; the base is what lies before it.`,
      };
    const targets = targetsOf(asked.options["target"] ?? "", input.measures);
    if (targets === undefined) return { exit: 64, output: TARGET_RULE };
    const form = GAP_FORMS.find((each) => each === asked.options["gaps"]);
    if (asked.options["gaps"] !== undefined && form === undefined)
      return { exit: 64, output: `--gaps is ${asked.options["gaps"]}; the rule is ${GAP_FORMS.join(" or ")}.` };
    const base = periodOf(table, from, period.from);
    const gaps = form
      ? (found as readonly Measure[]).map((measure) =>
          gapChart(table, measure, base, period, form, { limits, surveillance }),
        )
      : [];
    const answer = monitorService(table, found as readonly Measure[], base, period, { limits, surveillance }, targets);
    const exit = answer.charts.some(({ watch }) => (watch?.signals.length ?? 0) > 0) ? 2 : 0;
    if (asked.json)
      return {
        exit,
        output: JSON.stringify({ policyVersion: defaultPolicy.version, ...answer, ...(form && { gaps }) }, null, 2),
      };
    return {
      exit,
      output: [...monitorLines(answer), ...gaps.flatMap((one) => ["", ...gapLines(one)]), "", safetyStatement].join(
        "\n",
      ),
    };
  },
};
