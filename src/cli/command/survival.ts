import {
  checkTable,
  curveGuards,
  curvesOf,
  FACTOR_NAMES,
  hazardModel,
  lineStates,
  silenceOf,
  timeToEvent,
  type FactorName,
  type FollowedLines,
  type Measure,
  type Silence,
} from "../../audit/index.ts";
import {
  curveLines,
  curvesAnswer,
  hazardAnswer,
  hazardLines,
  safetyStatement,
  saySilence,
  statesLines,
  statesWords,
} from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command, Said } from "./command.ts";
import { lineTableInput, type LineTableInput } from "./line-table.ts";
import { eventMeasures, factorWords, lineTableWords, listed, namedMeasures, splitWords } from "./named-measures.ts";
import { leftOutOf, nothingToCount } from "./nothing-to-count.ts";

type Asked = Parameters<Command["run"]>[0];
type Answer = Said;

/** Chance of an event by a day since insertion, while other ends compete. */
export const survivalCommand: Command = {
  name: "survival",
  summary: "Chance of an event by day 7, 14, 30, while other ends compete; or lines blocked and running again.",
  usage:
    "veinwright survival LINES.csv (--measure MEASURE [--by lumens] | --states blocked) [--days 7,14,30] [--as-of DAY] [--json]",
  readsFile: true,
  explains: lineTableWords(true, [splitWords]),
  options: ["--as-of", "--by", "--measure", "--days", "--states"],
  run: (asked) => {
    const days = (asked.options["days"] ?? "7,14,30").split(",").map(Number);
    if (days.some((day) => !(day >= 0)))
      return { exit: 64, output: `--days is ${asked.options["days"]}; give days, 7,14,30.` };
    if (asked.options["states"] !== undefined) return statesAnswer(asked, days);
    const found = followed(asked);
    if ("exit" in found) return found;
    const { input, measure, lines, silence } = found;
    if (input.strata.length > 1) return { exit: 64, output: "Curves are split by one thing at a time. Name one." };
    const answer = curvesOf(lines, input.strata[0], days, input.limits);
    const guards = curveGuards(lines, input.limits);
    if (asked.json) return jsonOf({ measure: measure.id, guards, ...silence, ...answer });
    const said = found.nothing ?? [
      curvesAnswer(measure.id, answer),
      ...leftOutOf(input),
      ...curveLines(answer, guards),
      ...saySilence(measure.id, silence),
    ];
    return { exit: 0, output: [...said, "", safetyStatement].join("\n") };
  },
};

/** Hazard ratios of an event. */
export const coxCommand: Command = {
  name: "cox",
  summary: "Hazard ratios of an event, penalised when events are few.",
  usage:
    "veinwright cox LINES.csv --measure MEASURE --factors lumens,ratio [--shared patient] [--prior 2] [--as-of DAY] [--json]",
  readsFile: true,
  explains: lineTableWords(true, [factorWords]),
  options: ["--as-of", "--measure", "--factors", "--shared", "--prior"],
  run: (asked) => {
    const found = followed(asked);
    if ("exit" in found) return found;
    const factors = listed(asked.options["factors"]);
    const odd = factors.find((name) => !FACTOR_NAMES.some((one) => one === name));
    if (factors.length === 0 || odd !== undefined)
      return { exit: 64, output: `No factor "${odd ?? ""}". There are: ${FACTOR_NAMES.join(", ")}.` };
    const { shared, prior } = asked.options;
    if (shared !== undefined && shared !== "patient")
      return { exit: 64, output: `--shared is ${shared}; lines can share a patient only.` };
    const degrees = prior === undefined ? undefined : Number(prior);
    if (degrees !== undefined && !(degrees > 0 && degrees < Infinity))
      return { exit: 64, output: `--prior is ${prior}; give degrees above zero, 1 or 2.` };
    const answer = hazardModel(found.lines, factors as FactorName[], found.input.limits, {
      sharedByPatient: shared === "patient",
      ...(degrees === undefined ? {} : { priorDegrees: degrees }),
    });
    // other ends are censored by a model of hazards, and are no fault of it
    const guards = curveGuards(found.lines, found.input.limits).filter(({ guard }) => guard !== "otherEnds");
    if (asked.json)
      return {
        ...jsonOf({ measure: found.measure.id, guards, ...found.silence, ...answer }),
        exit: answer.kind === "fitted" ? 0 : 3,
      };
    const said = found.nothing ?? [
      hazardAnswer(found.measure.id, answer),
      ...leftOutOf(found.input),
      ...hazardLines(answer, factors.length, guards),
      ...saySilence(found.measure.id, found.silence),
    ];
    return {
      exit: answer.kind === "fitted" ? 0 : 3,
      output: [...said, "", safetyStatement].join("\n"),
    };
  },
};

/** Where lines are by the day: a block may end and come back, so that no curve of a first event can tell it. */
function statesAnswer(asked: Asked, days: readonly number[]): Answer {
  const { states, measure, by } = asked.options;
  if (states !== "blocked") return { exit: 64, output: `--states is ${states}; lines have the state blocked only.` };
  if (measure !== undefined || by !== undefined)
    return { exit: 64, output: "States are told of all lines. Leave --measure and --by out." };
  const input = lineTableInput(asked);
  if ("kind" in input) return { exit: input.exit, output: input.output };
  const { facts } = checkTable(input.table, input.limits, input.surveillance);
  const answer = lineStates(facts, days, input.limits);
  const exit = answer.kind === "told" ? 0 : 3;
  if (asked.json) return { ...jsonOf(answer), exit };
  return { exit, output: [statesWords.title, ...statesLines(answer), "", safetyStatement].join("\n") };
}

const jsonOf = (answer: object): Answer => ({
  exit: 0,
  output: JSON.stringify({ policyVersion: defaultPolicy.version, ...answer }, null, 2),
});

/** The event measure a command asks for by name. */
export function eventMeasure(input: LineTableInput, name: string | undefined): Measure | Answer {
  const found = namedMeasures(eventMeasures(input.measures), [name ?? ""]);
  return "exit" in found ? found : (found.measures[0] as Measure);
}

function followed(asked: Asked):
  | {
      readonly input: LineTableInput;
      readonly measure: Measure;
      readonly lines: FollowedLines;
      readonly silence: Silence;
      /** Said in the place of an answer where there is nothing to follow. */
      readonly nothing: readonly string[] | undefined;
    }
  | Answer {
  const input = lineTableInput(asked);
  if ("kind" in input) return { exit: input.exit, output: input.output };
  const measure = eventMeasure(input, asked.options["measure"]);
  if ("exit" in measure) return measure;
  const { facts } = checkTable(input.table, input.limits, input.surveillance);
  const silence = silenceOf(input.table, measure);
  // of what nobody wrote no curve and no model is told
  const nothing =
    nothingToCount(input) ?? (silence.neverWritten ? saySilence(measure.id, silence).join(" ") : undefined);
  return {
    input,
    measure,
    lines: timeToEvent(facts, measure),
    silence,
    nothing: nothing === undefined ? undefined : [nothing],
  };
}
