import { checkTable, pool, poolFile, type PoolFile } from "../../audit/index.ts";
import { hiddenSigns, readPoolText } from "../../contract/index.ts";
import { pooledAnswer, poolLines, safetyStatement } from "../../language/index.ts";
import { countLimitsFrom, defaultPolicy } from "../../policy/index.ts";
import type { Command, Said } from "./command.ts";
import { codedFor, legendOf } from "./disguise.ts";
import { faultOutput } from "./fault-output.ts";
import { LINE_TABLE_OPTIONS, lineTableInput } from "./line-table.ts";
import { lineTableWords, splitWords } from "./named-measures.ts";
import { eventMeasure } from "./survival.ts";

const limits = countLimitsFrom(defaultPolicy.table);
const WIDTH = "14";
const HORIZON = "182";

/**
 * With pool files: counts them together. With a line table and --service: writes the pool file of that service.
 */
export const poolCommand: Command = {
  name: "pool",
  summary: "Count several services together from their pool files, or make one.",
  usage:
    "veinwright pool A.json B.json ... [--json]; or pool LINES.csv --service NAME --measure MEASURE --by side [--strata ward] [--width 14] [--horizon 182] [--legend yes]",
  readsFile: true,
  readsSeveral: true,
  explains: lineTableWords(true, [splitWords]),
  options: [...LINE_TABLE_OPTIONS, "--service", "--measure", "--strata", "--width", "--horizon", "--legend"],
  run: (asked) => {
    if (asked.options["service"] !== undefined) return makePoolFile(asked);
    const files: PoolFile[] = [];
    for (const { name, text } of asked.texts) {
      const reading = readPoolText(text);
      if (reading.kind === "faults") return faultOutput(reading.faults, asked.json, `pool file ${name}`);
      files.push(reading.file);
    }
    const answer = pool(files, limits.level);
    if ("kind" in answer)
      return {
        exit: 65,
        output:
          answer.field === "service"
            ? `Service ${answer.found.join(", ")} stands twice. Give each service once.`
            : `The files differ in ${answer.field}: ${answer.found.join(", ")}. Make them alike first.`,
      };
    if (asked.json) return { exit: 0, output: JSON.stringify(answer, null, 2) };
    return { exit: 0, output: [pooledAnswer(answer), ...poolLines(answer), "", safetyStatement].join("\n") };
  },
};

function makePoolFile(asked: Parameters<Command["run"]>[0]): Said {
  const { options } = asked;
  const strata = [options["by"], options["strata"]].filter(Boolean).join(",");
  const input = lineTableInput({ ...asked, options: { ...options, by: strata } });
  if ("kind" in input) return { exit: input.exit, output: input.output };
  const measure = eventMeasure(input, options["measure"]);
  if ("exit" in measure) return measure;
  const [splitBy, strataBy] = input.strata;
  if (!splitBy || !options["by"]) return { exit: 64, output: "Name what to compare, such as --by side." };
  const { table, words } = codedFor(input.table, asked.text);
  const service = options["service"] as string;
  if (hiddenSigns(service, "").length > 0)
    return { exit: 64, output: "--service holds a sign that cannot be seen. Type it again by hand." };
  const legend = legendOf(options, words);
  if (legend) return legend;
  const { facts } = checkTable(table, input.limits, input.surveillance);
  const [widthDays, horizonDays] = [Number(options["width"] ?? WIDTH), Number(options["horizon"] ?? HORIZON)];
  try {
    const file = poolFile(facts, input.period, { service, measure, splitBy, strataBy, widthDays, horizonDays }, input);
    return { exit: 0, output: JSON.stringify(file, null, 1) };
  } catch (problem) {
    return { exit: 64, output: (problem as Error).message };
  }
}
