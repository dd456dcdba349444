import { readCaseText } from "../../contract/index.ts";
import {
  bedsidePlan,
  whatWouldChange,
  type BedsidePlan,
  type Flip,
  type PlanInput,
} from "../../core/line-plan/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { runSelfTest } from "../../core/self-test/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import {
  answerSentence,
  ceilingSentence,
  cutSentence,
  flipSentence,
  needleSentence,
  notConsideredSentence,
  offerSentence,
  safetyStatement,
  sayFinding,
  selfTestSentence,
} from "../../language/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../policy/index.ts";
import { planPdf, planSheet } from "../../paper/index.ts";
import { demoShelf } from "../../practice/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const policy = planPolicyFrom(defaultPolicy.table);

/** Plans one line from a case file, as text a person can read aloud or as JSON. */
export const planCommand: Command = {
  name: "plan",
  summary: "Plan a line from a case file.",
  usage: "veinwright plan CASE.json [--json] [--pdf FILE]",
  readsFile: true,
  run: ({ text, json }) => {
    const selfTest = runSelfTest(policy);
    if (!selfTest.passed) return { exit: 3, output: selfTestSentence(selfTest.failures) };
    const reading = readCaseText(text, demoShelf);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "case");
    const plan = bedsidePlan(reading.input, policy);
    const output = json
      ? JSON.stringify(jsonAnswer(plan, reading.echoes), null, 2)
      : spoken(reading.input, plan, reading.echoes);
    return { exit: plan.standing, output };
  },
  pdf: async (text, printedAt) => {
    const reading = readCaseText(text, demoShelf);
    if (reading.kind === "faults") return undefined;
    const plan = bedsidePlan(reading.input, policy);
    const flips = plan.answer.chosen ? changesOf(plan) : [];
    return planPdf(planSheet(reading.input, plan, flips, { policy: defaultPolicy, printedAt, practice: false }));
  },
};

/** Enough to read aloud. A survey of hundreds of readings would be searched for minutes and listened to for hours. */
const MOST_CHANGES = 20;
const MOST_LOOKED_AT = 400;

function changesOf(plan: BedsidePlan): readonly Flip[] {
  const changes: Flip[] = [];
  let lookedAt = 0;
  for (const flip of whatWouldChange(plan.planned, policy)) {
    lookedAt += 1;
    if (flip.kind === "number" || (flip.kind === "answer" && flip.becomes)) changes.push(flip);
    if (changes.length === MOST_CHANGES || lookedAt === MOST_LOOKED_AT) break;
  }
  return changes;
}

function jsonAnswer(plan: BedsidePlan, echoes: readonly Finding[]): unknown {
  const { planned: _, ...said } = plan;
  return { policyVersion: defaultPolicy.version, echoes, ...said };
}

function spoken(input: PlanInput, plan: BedsidePlan, echoes: readonly Finding[]): string {
  const { answer, trim, ceiling } = plan;
  const { name, identifier } = input.patient;
  const findings = [
    ...answer.findings,
    ...(answer.chosen?.findings ?? []),
    ...(plan.length?.findings ?? []),
    ...ceiling.findings,
  ];
  const say = (title: string, lines: readonly (string | undefined)[]) => {
    const kept = lines.filter((line): line is string => line !== undefined);
    return kept.length === 0 ? [] : ["", `${title}:`, ...kept.map((line) => `- ${line}`)];
  };
  return [
    `${isMissing(name) ? "Name missing" : name}, ${isMissing(identifier) ? "number missing" : identifier}.`,
    answerSentence(answer, input.shelf, plan.standing === 3),
    ...(answer.chosen ? [needleSentence(answer.chosen)] : []),
    ...(answer.chosen && plan.standing !== 3 ? [cutSentence(trim)] : []),
    ...[ceilingSentence(ceiling, input.anaesthetic)].filter((line) => line !== undefined),
    ...say("Stop", findings.filter(({ level }) => level === "stop").map(sayFinding)),
    ...say("Ask", findings.filter(({ level }) => level === "ask").map(sayFinding)),
    ...say("Why", findings.filter(({ level, verdict }) => level === undefined && verdict === "met").map(sayFinding)),
    ...say("Note", [...echoes, ...findings.filter(({ level }) => level === "note")].map(sayFinding)),
    ...say("Try, in this order", answer.offers.map(offerSentence)),
    ...say(
      "What would change this",
      changesOf(plan).map((flip) => flipSentence(flip, input)),
    ),
    ...say("Not considered", answer.notConsidered.map(notConsideredSentence)),
    "",
    `Policy ${defaultPolicy.version}. ${safetyStatement}`,
  ].join("\n");
}
