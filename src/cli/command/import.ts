import { randomBytes } from "node:crypto";
import { lineTableCsv } from "../../audit/index.ts";
import {
  rowFaultSentences,
  sayHidden,
  sayMatchingQuestion,
  sayRefusal,
  sayRowFault,
  sayWards,
  saySheetChoice,
  saySuggestion,
} from "../../language/index.ts";
import { defaultPolicy, sheetLimitsFrom } from "../../policy/index.ts";
import {
  agree,
  agreedLines,
  FAULT_COLUMNS,
  faultLines,
  lineContent,
  lineKey,
  lastDayOf,
  lineRowOf,
  matchingQuestions,
  openSheet,
  previewFaults,
  readKnownLines,
  readMatching,
  saltedKeys,
  suggestMatching,
  type KnownLines,
  type Preview,
  type Refusal,
} from "../../spreadsheet/index.ts";
import type { Command, Exit } from "./command.ts";
import { linesOfStore } from "./lines-of-store.ts";

const limits = sheetLimitsFrom(defaultPolicy.table);
const MOST_SAID = 50;
type Answer = { readonly exit: Exit; readonly output: string };

/** Reads a service's own spreadsheet: first a matching to confirm, then a preview with every fault, then, agreed, the lines. */
export const importCommand: Command = {
  name: "import",
  summary: "Read a service's own spreadsheet of lines; nothing is taken before --agree.",
  usage:
    "veinwright import FILE [--sheet NAME] [--matching M.json] [--known L.json] [--store PLACE] [--faults F.csv] [--lines L.json] [--table T.csv] [--agree] [--json]",
  readsFile: true,
  options: ["--sheet", "--matching", "--known", "--store", "--faults", "--lines", "--table"],
  flags: ["--agree"],
  run: () => ({ exit: 64, output: "This command reads its file in pieces." }),
  stream: async (call) => {
    const { json, options, file } = call;
    const sheet = await openSheet(file, options["sheet"] === undefined ? {} : { sheetName: options["sheet"] });
    if (sheet.kind === "refused") return refused(sheet.refusal, json);
    if (sheet.kind === "choose sheet") {
      const said = sheet.sheets.map((one) => `- ${saySheetChoice(one)}`);
      return {
        exit: 2,
        output: json ? JSON.stringify(sheet, null, 2) : ["Which sheet? Name it after --sheet.", ...said].join("\n"),
      };
    }
    if (options["matching"] === undefined) {
      const { matching, suggestions } = suggestMatching(sheet);
      if (json) return { exit: 2, output: JSON.stringify(matching, null, 2) };
      const told = sheet.encoding
        ? [`Read as ${sheet.encoding}. Look at: ${sheet.encodingSample.join(", ") || "plain letters"}.`]
        : [];
      return {
        exit: 2,
        output: [
          ...told,
          ...sayHidden(sheet),
          `Header in row ${sheet.headerRow}. Suggested, to be confirmed:`,
          ...suggestions.map((one) => `- ${saySuggestion(one)}`),
          "Keep the matching with --json, answer what is open, and sign it.",
        ].join("\n"),
      };
    }
    const matching = readMatching(call.read(options["matching"]));
    if (!matching) return { exit: 65, output: "The matching is not one. Make it with: veinwright import FILE --json" };
    const questions = matchingQuestions(matching, sheet);
    const blocking = questions.filter(({ code }) => code !== "not confirmed");
    if (blocking.length > 0)
      return {
        exit: 2,
        output: json ? JSON.stringify({ questions }, null, 2) : questions.map(sayMatchingQuestion).join("\n"),
      };
    const kept = options["known"] === undefined ? undefined : readKnownLines(call.read(options["known"]));
    if (options["known"] !== undefined && !kept)
      return { exit: 65, output: "The known lines are not a file that --lines wrote." };
    const registered = options["store"] === undefined ? undefined : await linesOfStore(options["store"]);
    if (registered && "exit" in registered) return registered;
    const known: KnownLines = new Map([...(kept ?? []), ...(registered?.lines ?? [])]);
    const reading = { matching, limits, today: call.today };
    const csv: string[] = [`${FAULT_COLUMNS.join(",")}\r\n`];
    const preview = await previewFaults(sheet, reading, {
      known,
      onFaults: (faults) => (options["faults"] === undefined ? undefined : csv.push(faultLines(faults, sayRowFault))),
    });
    if (preview.kind === "refused") return refused(preview.refusal, json);
    if (options["faults"] !== undefined) call.write(options["faults"], csv.join(""));
    if (!call.flags.includes("--agree")) return previewAnswer(preview, json);
    const agreement = agree(sheet, preview, matching, matching.confirmedBy);
    if (agreement.kind === "questions")
      return { exit: 2, output: agreement.questions.map(sayMatchingQuestion).join("\n") };
    const answer = await agreedLines(sheet, agreement, reading);
    if (answer.kind === "refused") return refused(answer.refusal, json);
    const keyOf = saltedKeys(randomBytes(16));
    const sheetDay = lastDayOf(answer.lines);
    const taken = answer.lines.map((line) => ({
      key: lineKey(line),
      content: lineContent(line),
      line: lineRowOf(line, keyOf, sheetDay),
    }));
    if (options["table"] !== undefined) call.write(options["table"], lineTableCsv(taken.map(({ line }) => line)));
    if (options["lines"] !== undefined) call.write(options["lines"], `${JSON.stringify({ lines: taken }, null, 1)}\n`);
    if (json) return { exit: 0, output: JSON.stringify({ agreedBy: agreement.by, lines: taken }, null, 2) };
    const files = [options["lines"], options["table"]].filter((name) => name !== undefined);
    const where =
      files.length === 0
        ? "Name a file after --table to count them, after --lines to know them again."
        : `Written to ${files.join(" and ")}.`;
    const again = preview.sameAsBefore + preview.changed.length;
    const twice = again > 0 ? ` ${again} of them were known before: do not count them twice.` : "";
    return { exit: 0, output: `${taken.length} lines taken, agreed by ${agreement.by}.${twice} ${where}` };
  },
};

const refused = (refusal: Refusal, json: boolean): Answer => ({
  exit: 65,
  output: json ? JSON.stringify({ refusal }, null, 2) : sayRefusal(refusal),
});

function previewAnswer(preview: Preview, json: boolean): Answer {
  const { rowsRead, rowsLeftOut, newLines, sameAsBefore, changed, faults, counts } = preview;
  if (json)
    return {
      exit: 2,
      output: JSON.stringify(
        { ...preview, counts: Object.fromEntries(counts), wards: Object.fromEntries(preview.wards) },
        null,
        2,
      ),
    };
  const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
  return {
    exit: 2,
    output: [
      `Preview only. Nothing was imported.`,
      `${rowsRead} rows read, ${rowsLeftOut} left out, ${newLines} new lines.`,
      `${sameAsBefore} are as before, ${changed.length} changed.`,
      ...changed.slice(0, MOST_SAID).map(({ row, before, now }) => `- Row ${row} was ${before} and is ${now}.`),
      ...sayWards(preview.wards),
      // hundreds of one kind hide the one that matters: each kind is told first, the rarest at the top
      all === 0 ? "No faults." : `${all} faults, by kind:`,
      ...[...counts].sort(([, a], [, b]) => a - b).map(([code, count]) => `- ${count} x ${rowFaultSentences[code]}`),
      ...(all === 0 ? [] : ["Each by its row:"]),
      ...faults.slice(0, MOST_SAID).map((fault) => `- ${sayRowFault(fault)}`),
      ...(all > MOST_SAID ? [`- and ${all - MOST_SAID} more; name a file after --faults.`] : []),
      "To take the lines, add --agree.",
    ].join("\n"),
  };
}
