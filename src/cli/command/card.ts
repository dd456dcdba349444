import { readLineBlock, readLineFile, writeLineBlock } from "../../contract/index.ts";
import { cardFactLines, safetyStatement } from "../../language/index.ts";
import { lineFactsOf } from "../../paper/line/index.ts";
import type { Command, Said } from "./command.ts";
import { faultOutput } from "./fault-output.ts";
import { linesOf, nextIssue, pickLine } from "./line-file.ts";

/** The letters of a line's card, or the line that a card's letters stand for. */
export const cardCommand: Command = {
  name: "card",
  summary: "Write the letters of a line's card, or read typed letters back.",
  usage: "veinwright card LINE.json [--line ID] [--json], or card --read BLOCK.txt",
  readsFile: true,
  picksLine: true,
  readsBack: true,
  run: ({ text, json, readBack, line, moment }) => {
    if (readBack) return readCard(text, json);
    const file = readLineFile(text);
    if (file.kind === "faults") return faultOutput(file.faults, json, "line file");
    const one = pickLine(linesOf(file, moment), line);
    if (!one) return { exit: 64, output: `This file holds ${file.lines.length} lines. Pick one with --line.` };
    const facts = lineFactsOf(one.line, nextIssue(one, "patient card"));
    const block = writeLineBlock(facts);
    return { exit: 0, output: json ? JSON.stringify({ block, facts }, null, 2) : block.join("\n") };
  },
};

function readCard(text: string, json: boolean): Said {
  const reading = readLineBlock(text);
  if (reading.kind === "faults") return faultOutput(reading.faults, json, "card");
  const { facts } = reading;
  const output = json ? JSON.stringify({ facts }, null, 2) : [...cardFactLines(facts), "", safetyStatement].join("\n");
  return { exit: 0, output };
}
