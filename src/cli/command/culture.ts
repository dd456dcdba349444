import { readCultureText } from "../../contract/index.ts";
import { judgeCultures, judgeQuantitative, judgeTipCulture } from "../../core/complication/index.ts";
import { cultureLines, safetyStatement, sayFinding } from "../../language/index.ts";
import { cultureLimitsFrom, defaultPolicy } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const limits = cultureLimitsFrom(defaultPolicy.table);

/** What the times and counts of cultures say: criterion met, not met, or indeterminate with every reason. */
export const cultureCommand: Command = {
  name: "culture",
  summary: "Read the times and counts of paired blood cultures.",
  usage: "veinwright culture CULTURE.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readCultureText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "culture file");
    const { bottles, antibioticBefore, quantitative, tip } = reading.data;
    const answer = judgeCultures(bottles, antibioticBefore, limits);
    const counts = quantitative ? judgeQuantitative(quantitative, limits).findings : [];
    const tips = tip ? [judgeTipCulture(tip.method, tip.cfu, limits)] : [];
    const exit: Exit = answer.outcome === "indeterminate" ? 2 : 0;
    if (json) {
      const whole = { policyVersion: defaultPolicy.version, ...answer, quantitative: counts, tip: tips };
      return { exit, output: JSON.stringify(whole, null, 2) };
    }
    const lines = [...cultureLines(answer, sayFinding), ...[...counts, ...tips].map(sayFinding)];
    return { exit, output: [...lines, "", safetyStatement].join("\n") };
  },
};
