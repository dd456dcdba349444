import {
  COMPARED,
  firstOfMonth,
  gapChart,
  GAP_FORMS,
  monitorService,
  periodOf,
  type GapChart,
  type Measure,
  type Period,
  type ServiceMonitor,
} from "../../audit/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { gapLines, monitorLines, safetyStatement } from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command, Said } from "./command.ts";
import { dateToCount, lineTableInput, YEARS_COUNTED, type LineTableInput } from "./line-table.ts";
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
    const { table, period } = input;
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
    const watched = watchedOver(input, found as readonly Measure[], { base, targets, form });
    if ("exit" in watched) return watched;
    const { gaps, answer } = watched;
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

/** The charts, or in words why there are none: a base or a period without line-days is nothing to watch by. */
function watchedOver(
  { table, period, limits, surveillance }: LineTableInput,
  measures: readonly Measure[],
  asked: {
    readonly base: Period;
    readonly targets: Readonly<Record<string, number>>;
    readonly form: (typeof GAP_FORMS)[number] | undefined;
  },
): Said | { readonly gaps: readonly GapChart[]; readonly answer: ServiceMonitor } {
  const { base, targets, form } = asked;
  const rules = { limits, surveillance };
  try {
    const gaps = form ? measures.map((measure) => gapChart(table, measure, base, period, form, rules)) : [];
    return { gaps, answer: monitorService(table, measures, base, period, rules, targets) };
  } catch (problem) {
    if (!(problem instanceof RangeError)) throw problem;
    return { exit: 3, output: `${problem.message} Name another --from.` };
  }
}
