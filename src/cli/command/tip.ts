import { readTipText } from "../../contract/index.ts";
import { isAsk, isStop } from "../../core/reason/index.ts";
import { armMovement, judgeOutside } from "../../core/tip/index.ts";
import { outsideSentence, safetyStatement, sayFinding } from "../../language/index.ts";
import { defaultPolicy, needPolicyFrom, releasePolicyFrom, tipPolicyFrom } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const policy = tipPolicyFrom(defaultPolicy.table);
const steps = releasePolicyFrom(defaultPolicy.table);
const { age } = needPolicyFrom(defaultPolicy.table);

/** What is known of a tip without a new film: by the outside length and by the arm. Never a confirmation. */
export const tipCommand: Command = {
  name: "tip",
  summary: "Estimate where a tip may be without a new film.",
  usage: "veinwright tip TIP.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const read = readTipText(text, age);
    if (read.kind === "faults") return faultOutput(read.faults, json, "tip file");
    const { outside, arm } = read.data;
    const length = outside && judgeOutside(outside, policy, steps);
    const movement = arm && armMovement(arm, policy);
    const findings = [...(length?.findings ?? []), ...(movement?.findings ?? [])];
    const exit: Exit = findings.some(isStop) ? 3 : findings.some(isAsk) ? 2 : 0;
    if (json)
      return {
        exit,
        output: JSON.stringify({ policyVersion: defaultPolicy.version, outside: length, arm: movement }, null, 2),
      };
    const first = length
      ? [
          outsideSentence(length),
          ...(length.imageFirst ? ["Image first."] : []),
          ...(length.hold ? ["Hold: no vesicant, no nutrition."] : []),
        ]
      : [];
    return { exit, output: [...first, ...findings.map(sayFinding), "", safetyStatement].join("\n") };
  },
};
