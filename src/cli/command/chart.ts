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
import { chartHelp, gapLines, monitorAnswer, monitorLines, noBase, safetyStatement } from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command, Said } from "./command.ts";
import { dateToCount, lineTableInput, YEARS_COUNTED, type LineTableInput } from "./line-table.ts";
import { eventMeasures, lineTableWords, listed, namedMeasures } from "./named-measures.ts";
import { leftOutOf } from "./nothing-to-count.ts";
import { TARGET_RULE, targetsOf } from "./targets.ts";

/** The service watched by its own base, under one false-alarm budget. */
export const chartCommand: Command = {
  name: "chart",
  summary: "Watch the service by its own base: sums, charts, gaps and signals.",
  usage:
    "veinwright chart LINES.csv [--measure A,B] [--target A=1.5,B=0.8] [--base-from DAY] [--from DAY] [--to DAY] [--as-of DAY] [--gaps exponential|power] [--json]",
  readsFile: true,
  explains: lineTableWords(true, [chartHelp]),
  options: ["--as-of", "--from", "--to", "--measure", "--base-from", "--target", "--gaps"],
  run: (asked) => {
    const input = lineTableInput(asked);
    if ("kind" in input) return { exit: input.exit, output: input.output };
    const { table, period, limits } = input;
    const names = listed(asked.options["measure"]);
    const named = namedMeasures(eventMeasures(input.measures), names.length > 0 ? names : [...COMPARED]);
    if ("exit" in named) return named;
    const { measures } = named;
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
        output: noBase({ placedFrom: first, from: period.from, to: period.to }, given !== undefined, limits.baseEvents),
      };
    const targets = targetsOf(asked.options["target"] ?? "", input.measures);
    if (targets === undefined) return { exit: 64, output: TARGET_RULE };
    const form = GAP_FORMS.find((each) => each === asked.options["gaps"]);
    if (asked.options["gaps"] !== undefined && form === undefined)
      return { exit: 64, output: `--gaps is ${asked.options["gaps"]}; the rule is ${GAP_FORMS.join(" or ")}.` };
    const base = periodOf(table, from, period.from);
    const watched = watchedOver(input, measures, { base, targets, form });
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
      output: [
        monitorAnswer(answer),
        ...leftOutOf(input),
        ...monitorLines(answer),
        ...gaps.flatMap((one) => ["", ...gapLines(one)]),
        "",
        safetyStatement,
      ].join("\n"),
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
