import { readMixingText } from "../../contract/index.ts";
import { mixingAnswer } from "../../core/flow/index.ts";
import { amount, mixingSentence, safetyStatement } from "../../language/index.ts";
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
    const { limit } = reading.data;
    const answer = mixingAnswer(reading.data, assumed);
    const { mixed, neededFlow, acidity } = answer;
    if (json) return { exit: 0, output: JSON.stringify(answer, null, 2) };
    const lines = [
      `After mixing: ${amount(mixed.wholeBlood, "mOsm/L", 0)}; in plasma only ${amount(mixed.plasmaOnly, "mOsm/L", 0)}; at the wall up to ${amount(mixed.undiluted, "mOsm/L", 0)}.`,
      ...(neededFlow === undefined
        ? []
        : [
            neededFlow === "none"
              ? `No flow is enough to stay under ${limit} mOsm/L.`
              : `To stay under ${limit} mOsm/L the mean needs ${amount(neededFlow, "mL/min")} of blood.`,
          ]),
      ...(acidity === undefined
        ? []
        : [
            acidity.kind === "undiluted"
              ? "No blood flows: nothing buffers the fluid."
              : `The blood's pH moves by ${acidity.change.toFixed(3)}: buffering, not averaging.`,
          ]),
      mixingSentence,
      "",
      safetyStatement,
    ];
    return { exit: 0, output: lines.join("\n") };
  },
};
