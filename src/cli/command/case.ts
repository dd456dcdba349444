import { caseCsv, caseFile, caseOfLine, lineRowsFromRegister, type CaseStory } from "../../audit/index.ts";
import { readLineFile, type LineFile } from "../../contract/index.ts";
import type { Instant } from "../../core/calendar/index.ts";
import { caseLines, caseWords, safetyStatement } from "../../language/index.ts";
import { caseSheet, linePaperPdf } from "../../paper/index.ts";
import { lineRulesFrom } from "../../paper/line/index.ts";
import { countLimitsFrom, cultureLimitsFrom, defaultPolicy } from "../../policy/index.ts";
import { referralView, valueIn, type LineView, type PatientView, type Subject } from "../../register/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

/** A line's story without identity, for teaching: words, CSV, JSON or one page. */
export const caseCommand: Command = {
  name: "case",
  summary: "A line's story for teaching: no name, number, date, ward or free word.",
  usage: "veinwright case LINE.json [--line ID] [--as words|csv] [--json] [--pdf FILE]",
  readsFile: true,
  picksLine: true,
  options: ["--as"],
  run: ({ text, json, line, moment, options }) => {
    const as = options["as"] ?? "words";
    if (as !== "words" && as !== "csv") return { exit: 64, output: `--as is ${as}; the rule is words or csv.` };
    const file = readLineFile(text);
    if (file.kind === "faults") return faultOutput(file.faults, json, "line file");
    const story = storyOf(file, line, moment);
    if (typeof story === "string") return { exit: 64, output: story };
    const exit: Exit = story.rare ? 2 : 0;
    if (json) return { exit, output: JSON.stringify(caseFile(story, defaultPolicy.version), null, 2) };
    return {
      exit,
      output: as === "csv" ? caseCsv(story) : [...caseLines(story), "", safetyStatement].join("\n"),
    };
  },
  pdf: async (text, _, { line, moment }) => {
    const file = readLineFile(text);
    if (file.kind === "faults") return undefined;
    const story = storyOf(file, line, moment);
    if (typeof story === "string") return undefined;
    const practice = lineIn(file, line)?.patient?.subject.startsWith("patient:practice-") ?? false;
    return linePaperPdf([caseSheet(story, { policyVersion: defaultPolicy.version, practice })]);
  },
};

const lineIn = ({ lines }: LineFile, id: string): LineFile["lines"][number] | undefined =>
  id === "" ? (lines.length === 1 ? lines[0] : undefined) : lines.find(({ line }) => line.subject === `line:${id}`);

/** The story of the one line asked for, or what to do where there is none. */
function storyOf(file: LineFile, id: string, moment: Instant): CaseStory | string {
  const { lines, histories } = file;
  const picked = lineIn(file, id);
  if (!picked) {
    const ids = lines.map(({ line }) => line.subject.slice("line:".length)).join(", ");
    return `This file holds ${lines.length} lines. Pick one with --line: ${ids || "none"}.`;
  }
  const { line } = picked;
  const referrals = [...histories.values()]
    .filter(({ subject }) => subject.startsWith("referral:"))
    .map((history) => referralView(history));
  const table = lineRowsFromRegister(
    {
      lines: lines.map((one): LineView => one.line),
      referrals,
      patients: new Map<Subject, PatientView>(
        lines.flatMap(({ patient }) => (patient ? [[patient.subject, patient] as const] : [])),
      ),
      rules: lineRulesFrom(defaultPolicy),
      cultures: cultureLimitsFrom(defaultPolicy.table),
      keyOf: (_, name) => name,
    },
    moment,
  );
  const row = table.lines.find(({ key }) => key === line.subject);
  const referral = referrals.find(({ subject }) => subject === `referral:${valueIn(line.said.referral) ?? ""}`);
  const story = row && caseOfLine({ line, referral, row }, table.lines, countLimitsFrom(defaultPolicy.table));
  return story ?? caseWords.none;
}
