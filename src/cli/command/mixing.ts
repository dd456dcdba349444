import { readMixingText } from "../../contract/index.ts";
import { mixingAnswer } from "../../core/flow/index.ts";
import { mixingLines, safetyStatement } from "../../language/index.ts";
import { defaultPolicy, flowAssumptionsFrom } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const assumed = flowAssumptionsFrom(defaultPolicy.table);

/** What reaches the blood beyond the tip after full mixing, and what does not follow from it. */
export const mixingCommand: Command = {
  name: "mixing",
  summary: "Say how an infusion mixes at the tip, on average.",
  usage: "veinwright mixing MIXING.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readMixingText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "mixing");
    const answer = mixingAnswer(reading.data, assumed);
    if (json) return { exit: 0, output: JSON.stringify(answer, null, 2) };
    return { exit: 0, output: [...mixingLines(answer, reading.data.limit), "", safetyStatement].join("\n") };
  },
};
