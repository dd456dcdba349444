import { readReferralText } from "../../contract/index.ts";
import { answerReferral } from "../../core/device-choice/index.ts";
import { armProtectionNote, safetyStatement, sayFinding } from "../../language/index.ts";
import { defaultPolicy, needPolicyFrom, starterInfusates } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const policy = needPolicyFrom(defaultPolicy.table);
const exits: Readonly<Record<string, Exit>> = { open: 0, assess: 2, "not known": 2, barred: 3 };

/** What the kidney says about the arm veins: the filtration in both units, its stage, its trend, and the note to hang up. */
export const kidneyCommand: Command = {
  name: "kidney",
  summary: "Say what the kidney means for the arm veins.",
  usage: "veinwright kidney NEED.json [--json]",
  readsFile: true,
  run: ({ text, json, today }) => {
    const reading = readReferralText(text, starterInfusates);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "need");
    const { kidney } = answerReferral(reading.referral, policy, today);
    const exit = exits[kidney.standing] ?? 2;
    if (json) return { exit, output: JSON.stringify({ policyVersion: defaultPolicy.version, ...kidney }, null, 2) };
    const stage = kidney.stage ? [`Stage ${kidney.stage}.`] : [];
    const note = kidney.standing === "barred" ? ["", ...armProtectionNote] : [];
    return { exit, output: [...kidney.findings.map(sayFinding), ...stage, ...note, "", safetyStatement].join("\n") };
  },
};
