import { randomBytes } from "node:crypto";
import { lineTableCsv } from "../../audit/index.ts";
import {
  rowFaultSentences,
  sayEncoding,
  sayHidden,
  sayListed,
  sayMatchingQuestion,
  sayRefusal,
  sayRowFault,
  sayWards,
  saySheetChoice,
  saySuggestion,
  saySwappedColumns,
} from "../../language/index.ts";
import { defaultPolicy, sheetLimitsFrom } from "../../policy/index.ts";
import {
  agree,
  agreedPieces,
  wardOffers,
  everyFault,
  FAULT_COLUMNS,
  faultLines,
  lineContent,
  lineKey,
  lineRowOf,
  matchingQuestions,
  openSheet,
  previewFaults,
  readKnownLines,
  readMatching,
  saltedKeys,
  suggestMatching,
  swappedColumns,
  type Agreement,
  type KnownLines,
  type Matching,
  type Preview,
  type Refusal,
  type RowFault,
  type Sheet,
} from "../../spreadsheet/index.ts";
import type { Command, Exit, StreamCall } from "./command.ts";
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
      const swapped = swappedColumns(matching, sheet, limits);
      return {
        exit: 2,
        output: [
          ...(sheet.encoding ? [sayEncoding(sheet)] : []),
          ...sayHidden(sheet),
          `Header in row ${sheet.headerRow}. Suggested, to be confirmed:`,
          ...suggestions.map((one) => `- ${saySuggestion(one)}`),
          ...(swapped ? [`${saySwappedColumns(swapped)} Change them in the matching.`] : []),
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
    const preview = await previewFaults(sheet, reading, { known });
    if (preview.kind === "refused") return refused(preview.refusal, json);
    const list = options["faults"] === undefined ? undefined : call.begin(options["faults"]);
    if (list) {
      list.add(`${FAULT_COLUMNS.join(",")}\r\n`);
      for await (const part of everyFault(sheet, preview, reading)) {
        if (part.kind === "refused") return refused(part.refusal, json);
        list.add(faultLines(part.faults, sayRowFault));
      }
      list.end();
    }
    const swapped = swappedColumns(matching, sheet, limits);
    if (!call.flags.includes("--agree"))
      return previewAnswer(
        preview,
        [...(swapped ? [saySwappedColumns(swapped)] : []), ...askWards(preview, matching)],
        json,
      );
    const agreement = agree(sheet, preview, matching, matching.confirmedBy);
    if (agreement.kind === "questions")
      return { exit: 2, output: agreement.questions.map(sayMatchingQuestion).join("\n") };
    return takeLines(call, sheet, agreement);
  },
};

/** Writes the agreed lines as they are read; none of a million is held but where the answer itself is to be all of them. */
async function takeLines(call: StreamCall, sheet: Sheet, agreement: Agreement): Promise<Answer> {
  const { json, options, today } = call;
  const { by, preview } = agreement;
  const keyOf = saltedKeys(randomBytes(16));
  const files = [options["lines"], options["table"]].filter((name) => name !== undefined);
  const [kept, table] = [options["lines"], options["table"]].map((name) =>
    name === undefined ? undefined : call.begin(name),
  );
  const answered: object[] = [];
  let taken = 0;
  kept?.add('{"lines":[');
  table?.add(lineTableCsv([]));
  for await (const piece of agreedPieces(sheet, agreement, { limits, today })) {
    if (piece.kind === "refused") {
      // what is half written is no table
      for (const name of files) call.begin(name).end();
      return refused(piece.refusal, json);
    }
    for (const one of piece.lines) {
      const line = lineRowOf(one, keyOf, preview.lastDay);
      table?.add(lineTableCsv([line], false));
      const known = { key: lineKey(one), content: lineContent(one), line };
      kept?.add(`${taken === 0 ? "\n" : ",\n"}${JSON.stringify(known)}`);
      if (json) answered.push(known);
      taken += 1;
    }
  }
  kept?.add("\n]}\n");
  kept?.end();
  table?.end();
  if (json) return { exit: 0, output: JSON.stringify({ agreedBy: by, lines: answered }, null, 2) };
  const where =
    files.length === 0
      ? "Name a file after --table to count them, after --lines to know them again."
      : `Written to ${files.join(" and ")}.`;
  const again = preview.sameAsBefore + preview.changedLines;
  const twice = again > 0 ? ` ${again} of them were known before: do not count them twice.` : "";
  return { exit: 0, output: `${taken} lines taken, agreed by ${by}.${twice} ${where}` };
}

const refused = (refusal: Refusal, json: boolean): Answer => ({
  exit: 65,
  output: json ? JSON.stringify({ refusal }, null, 2) : sayRefusal(refusal),
});

function previewAnswer(preview: Preview, told: readonly string[], json: boolean): Answer {
  const { rowsRead, rowsLeftOut, newLines, sameAsBefore, changedLines, changed, faults, counts, wards } = preview;
  if (json)
    return {
      exit: 2,
      output: JSON.stringify(
        {
          ...preview,
          counts: Object.fromEntries(counts),
          wards: Object.fromEntries(wards),
          spellings: Object.fromEntries(preview.spellings),
          between: undefined,
        },
        null,
        2,
      ),
    };
  const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const listed = firstOfEachKind(faults);
  return {
    exit: 2,
    output: [
      `Preview only. Nothing was imported.`,
      `${rowsRead} rows read, ${rowsLeftOut} left out, ${newLines} new lines.`,
      `${sameAsBefore} are as before, ${changedLines} changed.`,
      ...told,
      ...changed.slice(0, MOST_SAID).map(({ row, before, now }) => `- Row ${row} was ${before} and is ${now}.`),
      ...sayWards(wards),
      // hundreds of one kind hide the one that matters: each kind is told first, the rarest at the top
      all === 0 ? "No faults." : `${all} faults, by kind:`,
      ...[...counts].sort(([, a], [, b]) => a - b).map(([code, count]) => `- ${count} x ${rowFaultSentences[code]}`),
      ...(all === 0 ? [] : [`By their rows: ${sayListed(listed.length, all)}`]),
      ...listed.map((fault) => `- ${sayRowFault(fault)}`),
      ...(all > listed.length ? ["- Name a file after --faults for all of them."] : []),
      "To take the lines, add --agree.",
    ].join("\n"),
  };
}

/** Spellings that may be one ward, as a line for the matching: the name is left to a person. */
function askWards({ spellings }: Preview, { wards }: Matching): readonly string[] {
  const open = wardOffers(spellings, wards).filter(({ whole }) => !whole);
  if (open.length === 0) return [];
  return [
    'One ward in several spellings? Write it under "wards" in the matching, with its name:',
    ...open.map((offer) => {
      const one = { name: offer.kept?.name ?? "", spellings: offer.spellings.map(([spelling]) => spelling) };
      return `- ${JSON.stringify(one)}`;
    }),
  ];
}

/** As many of each kind as fit, so that a common one leaves room for a rare one. */
function firstOfEachKind(faults: readonly RowFault[]): readonly RowFault[] {
  const kinds = new Set(faults.map(({ code }) => code));
  const most = Math.max(1, Math.floor(MOST_SAID / Math.max(1, kinds.size)));
  const seen = new Map<string, number>();
  const few = faults.length <= MOST_SAID;
  return faults.filter(({ code }) => {
    seen.set(code, (seen.get(code) ?? 0) + 1);
    return few || (seen.get(code) ?? 0) <= most;
  });
}
