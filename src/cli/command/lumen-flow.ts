import { readLumenText, sizeOf } from "../../contract/index.ts";
import { lumenAnswer } from "../../core/flow/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { lumenFlowLines, safetyStatement } from "../../language/index.ts";
import { defaultPolicy, flowAssumptionsFrom } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";
import { refusedOutput } from "./refused-output.ts";

const assumed = flowAssumptionsFrom(defaultPolicy.table);

/** What one lumen carries of one fluid, under a hanging bag or a pump's limit. */
export const lumenFlowCommand: Command = {
  name: "lumen-flow",
  summary: "Say what one lumen carries, by the model.",
  usage: "veinwright lumen-flow LUMEN.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readLumenText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "lumen");
    const { lengthCm, fluid, rateMlPerHour } = reading.data;
    const answer = lumenAnswer(
      { ...reading.data, lengthCm: centimetre(lengthCm), outsideDiameterMm: sizeOf(reading.data) },
      assumed,
    );
    if (answer.kind !== "lumen flow") return refusedOutput(answer.reason, json);
    const perHour = answer.flow.flow * 60;
    const carries = rateMlPerHour === undefined ? undefined : perHour >= rateMlPerHour;
    if (json)
      return {
        exit: 0,
        output: JSON.stringify({ ...answer, perHour, carries }, null, 2),
      };
    const lines = [
      ...lumenFlowLines(answer, fluid),
      ...(carries === undefined
        ? []
        : [`${rateMlPerHour} mL/h is ${carries ? "within" : "more than"} what the model carries.`]),
      "",
      safetyStatement,
    ];
    return { exit: 0, output: lines.join("\n") };
  },
};
