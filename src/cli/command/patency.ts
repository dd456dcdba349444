import { readPatencyText } from "../../contract/index.ts";
import { lyticRefusals, nextPatencyStep } from "../../core/care/index.ts";
import { patencyLines, safetyStatement, sayFinding } from "../../language/index.ts";
import { defaultPolicy, patencyLimitsFrom } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const limits = patencyLimitsFrom(defaultPolicy.table);

/** The one next step with a line that does not flow, with its clock; asked for lytic, what stands before it. */
export const patencyCommand: Command = {
  name: "patency",
  summary: "Say the one next step with a blocked line.",
  usage: "veinwright patency PATENCY.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readPatencyText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "patency file");
    const { answers, asOf, wantsLytic } = reading.data;
    const next = nextPatencyStep(answers, asOf, limits);
    const refusals = wantsLytic ? lyticRefusals(answers) : [];
    const exit: Exit = refusals.length > 0 ? 3 : next.step === "none" ? 0 : 2;
    if (json)
      return { exit, output: JSON.stringify({ policyVersion: defaultPolicy.version, next, refusals }, null, 2) };
    return {
      exit,
      output: [
        ...refusals.map((one) => `- ${sayFinding(one)}`),
        ...patencyLines(next),
        ...next.findings.map(sayFinding),
        "",
        safetyStatement,
      ].join("\n"),
    };
  },
};
