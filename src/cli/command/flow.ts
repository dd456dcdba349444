import { readVeinText, sizeOf } from "../../contract/index.ts";
import { veinAnswer } from "../../core/flow/index.ts";
import { millimetre } from "../../core/quantity/index.ts";
import { flowRefusal, safetyStatement, veinFlowLines } from "../../language/index.ts";
import { defaultPolicy, flowAssumptionsFrom } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const assumed = flowAssumptionsFrom(defaultPolicy.table);

/** What one catheter leaves of one vein's flow, centred and touching. */
export const flowCommand: Command = {
  name: "flow",
  summary: "Say what a catheter leaves of the vein's flow.",
  usage: "veinwright flow VEIN.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readVeinText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "vein");
    const { diameterMm, sdMm = 0, offset = 0 } = reading.data;
    const question = {
      outsideDiameterMm: sizeOf(reading.data),
      diameterMm: millimetre(diameterMm),
      sdMm: millimetre(sdMm),
      offset,
    };
    const answer = veinAnswer(question, assumed);
    if ("kind" in answer) return { exit: 3, output: flowRefusal[answer.reason] ?? answer.reason };
    const output = json ? JSON.stringify(answer, null, 2) : [...veinFlowLines(answer), "", safetyStatement].join("\n");
    return { exit: 0, output };
  },
};
