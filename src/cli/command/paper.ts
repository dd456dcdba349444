import { readLineFile, type LineFile } from "../../contract/index.ts";
import type { Instant } from "../../core/calendar/index.ts";
import { linePaperPdf } from "../../paper/index.ts";
import {
  armProtectionFor,
  handoverSheets,
  lineRulesFrom,
  LINE_PAPER_NAMES,
  linePaper,
  recallSheets,
  sheetText,
  type LinePaperName,
  type ListedLine,
  type Sheet,
} from "../../paper/line/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import { answerLine, initialHistory, lineView, lotView, patientView, type PatientView } from "../../register/index.ts";
import type { Asked, Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";
import { linesOf, nextIssue, pickLine, recalledOf } from "./line-file.ts";

const LISTS = ["handover", "recall list"] as const;
const dashed = (name: string): string => name.replaceAll(" ", "-");
const NAMES = [...LINE_PAPER_NAMES, ...LISTS].map(dashed);

/** Prints one paper of a line, or of everyone an owner or a lot reaches. */
export const paperCommand: Command = {
  name: "paper",
  summary: "Print a paper of a line, such as film-slip; without a name, the names.",
  usage: "veinwright paper NAME LINE.json [--line ID] [--json] [--pdf FILE]",
  readsFile: true,
  takes: NAMES,
  picksLine: true,
  run: ({ text, json, ...asked }) => {
    const file = readLineFile(text);
    if (file.kind === "faults") return faultOutput(file.faults, json, "line file");
    const sheets = sheetsOf(file, asked);
    if (typeof sheets === "string") return { exit: 64, output: sheets };
    const output = json
      ? JSON.stringify(sheets, null, 2)
      : sheets.map((sheet) => sheetText(sheet).join("\n")).join("\n\n");
    return { exit: 0, output };
  },
  pdf: async (text, _, asked) => {
    const file = readLineFile(text);
    const sheets = file.kind === "faults" ? "" : sheetsOf(file, asked);
    return typeof sheets === "string" ? undefined : linePaperPdf(sheets);
  },
};

/** The sheets that were asked for, or what to do where there are none. */
function sheetsOf(file: LineFile, { what, line, moment }: Asked): readonly Sheet[] | string {
  const printing = { policy: defaultPolicy, printedAt: moment };
  const lines = linesOf(file, moment);
  if (what === "handover") {
    const owners = [...new Set(lines.map((one) => one.line.owner?.owner ?? ""))].sort();
    return owners.flatMap((owner) => handoverSheets(owner, lines, printing)).filter(hasRows);
  }
  if (what === "recall-list") {
    const lots = [...file.histories.values()].filter(({ subject }) => subject.startsWith("lot:")).map(lotView);
    const recalled = lots.filter((lot) => lot.recalled !== undefined);
    if (recalled.length === 0) return "No lot of this file was called back. Write the recall first.";
    return recalled.flatMap((lot) => recallSheets(lot.lotNumber, lines, printing));
  }
  const name = LINE_PAPER_NAMES.find((one) => dashed(one) === what) as LinePaperName;
  const people = [...file.histories.values()].filter(({ subject }) => subject.startsWith("patient:")).map(patientView);
  const person = people.length === 1 ? people[0] : undefined;
  // the veins of a person without a line are kept as well
  if (name === "arm-protection note" && lines.length === 0 && person) return [armProtectionFor(person, printing)];
  const one =
    pickLine(lines, line) ?? (name === "record form" && lines.length === 0 ? emptyForm(person, moment) : undefined);
  if (!one) return `This file holds ${lines.length} lines. Pick one with --line: ${idsOf(lines)}.`;
  return [linePaper(name, { ...one, issue: nextIssue(one, name), ...printing, ...recalledOf(file, one) })];
}

const hasRows = ({ blocks }: Sheet): boolean => blocks.some((block) => block.kind === "table" && block.rows.length > 0);
const idsOf = (lines: readonly ListedLine[]): string =>
  lines.map(({ line }) => line.subject.slice("line:".length)).join(", ") || "none";

/** A form to be filled in by hand: for the person the file knows, or for nobody yet. */
function emptyForm(patient: PatientView | undefined, moment: Instant): ListedLine {
  const line = lineView(initialHistory("line:new"));
  const answer = answerLine(line, { arm: undefined, number: undefined }, moment, moment, lineRulesFrom(defaultPolicy));
  return { line, patient, answer };
}
