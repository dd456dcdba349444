import { armMap, checkTable, learningCurve, MAP_AXES, silenceOf } from "../../audit/index.ts";
import { learningLines, mapLines, mapsAnswer, safetyStatement, saySilence } from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { LINE_TABLE_OPTIONS, lineTableInput } from "./line-table.ts";
import { lineTableWords } from "./named-measures.ts";
import { leftOutOf } from "./nothing-to-count.ts";
import { eventMeasure } from "./survival.ts";

/** Where along the arm, and at which fill of the vein, a complication came. */
export const mapCommand: Command = {
  name: "map",
  summary: "Rate of an event along the arm and by catheter over vein, smoothed.",
  usage: "veinwright map LINES.csv --measure MEASURE [--from DAY] [--to DAY] [--as-of DAY] [--json]",
  readsFile: true,
  explains: lineTableWords(true),
  options: [...LINE_TABLE_OPTIONS.filter((name) => name !== "--by"), "--measure"],
  run: (asked) => {
    const input = lineTableInput(asked);
    if ("kind" in input) return { exit: input.exit, output: input.output };
    const measure = eventMeasure(input, asked.options["measure"]);
    if ("exit" in measure) return measure;
    const maps = MAP_AXES.map((axis) => armMap(input.table, measure, input.period, axis, input));
    const silence = silenceOf(input.table, measure);
    if (asked.json)
      return { exit: 0, output: JSON.stringify({ policyVersion: defaultPolicy.version, ...silence, maps }, null, 2) };
    const silent = saySilence(measure.id, silence);
    // a map of what nobody wrote would be a map of nobody's asking
    const said = silence.neverWritten
      ? silent
      : [mapsAnswer(measure.id, maps), ...leftOutOf(input), ...maps.flatMap(mapLines), ...silent];
    return { exit: 0, output: [...said, "", safetyStatement].join("\n") };
  },
};

/** One person's cases in order; for that person and the trainer. */
export const learningCommand: Command = {
  name: "learning",
  summary: "One person's own cases in order, each weighed by how hard it was.",
  usage: "veinwright learning LINES.csv --inserter KEY [--as-of DAY] [--json]",
  readsFile: true,
  options: ["--as-of", "--inserter"],
  run: (asked) => {
    const input = lineTableInput(asked);
    if ("kind" in input) return { exit: input.exit, output: input.output };
    const key = asked.options["inserter"] ?? "";
    const { facts } = checkTable(input.table, input.limits, input.surveillance);
    const curve = learningCurve(facts, key, input.limits);
    if (curve.cases.length === 0)
      return { exit: 65, output: `No line with known attempts has the inserter key "${key}". Check the key.` };
    if (asked.json)
      return { exit: 0, output: JSON.stringify({ policyVersion: defaultPolicy.version, ...curve }, null, 2) };
    return { exit: 0, output: [...learningLines(curve), "", safetyStatement].join("\n") };
  },
};
