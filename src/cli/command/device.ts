import { readInfusateCsv, readReferralText } from "../../contract/index.ts";
import { answerReferral, type DeviceAnswer, type ReferralAnswer } from "../../core/device-choice/index.ts";
import {
  armProtectionNote,
  dailyLife,
  dayFlipSentence,
  deviceFlipSentence,
  deviceSentence,
  evidenceBeside,
  factQuestion,
  lumens,
  rangeLines,
  ratedSentence,
  reasonRule,
  safetyStatement,
  sayFinding,
  usualDwell,
  wardLines,
} from "../../language/index.ts";
import { defaultPolicy, needPolicyFrom, ruleOrigin, starterInfusates, whyOfRule } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const policy = needPolicyFrom(defaultPolicy.table);

/** Which device, or none: from a need file, as text a person can read aloud or as JSON. */
export const deviceCommand: Command = {
  name: "device",
  summary: "Say which device a need asks for, or none, and why.",
  usage: "veinwright device NEED.json [--infusates LIST.csv] [--json]",
  readsFile: true,
  readsList: true,
  run: ({ text, json, today, list }) => {
    const own = list === undefined ? undefined : readInfusateCsv(list);
    // a hospital's own drug stands before the starter list's of the same name
    const reading = readReferralText(text, [...(own?.kind === "list" ? own.infusates : []), ...starterInfusates]);
    // a fault of the list hides none of the need
    const faults = [
      ...(own?.kind === "faults" ? own.faults.map((fault) => ({ ...fault, path: `drug list: ${fault.path}` })) : []),
      ...(reading.kind === "faults" ? reading.faults : []),
    ];
    if (faults.length > 0 || reading.kind === "faults") return faultOutput(faults, json, "need or its drug list");
    const answer = answerReferral(reading.referral, policy, today);
    const output = json ? JSON.stringify({ policyVersion: defaultPolicy.version, ...answer }, null, 2) : spoken(answer);
    return { exit: exitOf(answer), output };
  },
};

function exitOf({ device }: ReferralAnswer): Exit {
  if (["ask", "not excluded", "team decides"].includes(device.outcome)) return 2;
  return device.outcome === "none offered" ? 3 : 0;
}

function spoken(answer: ReferralAnswer): string {
  const { device, kidney, infusates, notes } = answer;
  const closing = ["", `Policy ${defaultPolicy.version}. ${safetyStatement}`];
  if (device.outcome === "ask") return [deviceSentence(device), ...closing].join("\n");
  const say = (title: string, lines: readonly string[]) =>
    lines.length === 0 ? [] : ["", `${title}:`, ...lines.map((line) => `- ${line}`)];
  const why = whyOfRule(reasonRule(device));
  const findings = [...infusates.flatMap((one) => one.findings), ...kidney.findings, ...notes];
  return [
    deviceSentence(device),
    ...(why ? [`Because: ${why}`] : []),
    ...say("The days decide", rangeLines(device)),
    ...say("Still to ask", stillToAsk(device)),
    ...say("Every device", ratedLines(device)),
    ...say("Found", findings.map(sayFinding)),
    ...say(
      "Lumens by the rule",
      device.lumens === undefined ? [] : [`${lumens(device.lumens)}; a drug chart beats it`],
    ),
    ...say("What would change this", [
      ...device.dayFlips.map(dayFlipSentence),
      ...device.flips.map(deviceFlipSentence),
    ]),
    ...say("Beside a PICC", comparison(device)),
    ...say("For the ward", wardLines(answer, why ?? "") ?? []),
    ...(kidney.standing === "barred" ? say("To hang at the bed", armProtectionNote) : []),
    ...closing,
  ].join("\n");
}

const stillToAsk = (device: DeviceAnswer): readonly string[] =>
  [...new Set([...device.stillToAsk, ...device.wouldMatter])].map((fact) => factQuestion[fact]);

const ratedLines = (device: DeviceAnswer): readonly string[] =>
  device.ranked.map((ranked) => {
    const [rule] = ranked.rules;
    return `${ratedSentence(ranked, whyOfRule(rule) ?? "")} (${ruleOrigin(rule)})`;
  });

/** What is known of the first device beside the PICC, and what a day with it is like. */
function comparison(device: DeviceAnswer): readonly string[] {
  return device.first.flatMap(({ device: name }) =>
    name === "none"
      ? []
      : [
          ...(evidenceBeside[name] ?? []),
          ...[usualDwell[name], dailyLife[name]]
            .filter((line) => line !== undefined)
            .map((line) => `${name}: ${line} (common practice)`),
        ],
  );
}
