import type { CivilDate, Instant } from "../core/calendar/index.ts";
import type { SheetFile } from "../spreadsheet/index.ts";
import { commands, type Command, type Exit, type FileInPieces } from "./command/index.ts";
import { stopped } from "./stopped.ts";

const EXITS =
  "A file named - is standard input. Exit: 0 answered, 2 a question is open, 3 refused, 64 bad usage, 65 bad data, 70 a fault of the program.";
const help = [
  "veinwright: decision support for placing and looking after PICCs",
  "",
  ...commands.map(({ usage, summary }) => `  npx --no ${usage}\n      ${summary}`),
  "",
  EXITS,
].join("\n");

/** One command alone: what it does, how it is called, which words its options take. */
const helpOf = ({ summary, usage, explains }: Command): string =>
  [summary, "", `  npx --no ${usage}`, ...(explains ? ["", ...explains()] : []), "", EXITS].join("\n");

/** What a call reaches of the machine it runs on. */
interface Machine {
  readonly read: (name: string) => string;
  /** A file in pieces, where the caller can give one. */
  readonly pieces?: (name: string) => SheetFile;
  readonly write: (name: string, bytes: Uint8Array) => void;
  /** Adds to a file that stands; where it is lacking a file is held whole and written at its end. */
  readonly append?: (name: string, bytes: Uint8Array) => void;
  readonly now: () => string;
  readonly today: () => CivilDate;
  readonly moment: () => Instant;
  readonly stamp?: () => string;
  /** The address of the record when --store is not given. */
  readonly store?: string;
  /** Whether a fault of the program itself shows where it happened. */
  readonly showsStack?: boolean;
}

/** Runs one call of the command line; files are read through the function handed in. It answers, whatever happens. */
export async function runCommandLine(
  words: readonly string[],
  machine: Machine,
): Promise<{ readonly exit: Exit; readonly output: string }> {
  try {
    return await answered(words, machine);
  } catch (error) {
    return stopped(error, words.includes("--json"), machine.showsStack === true);
  }
}

async function answered(
  words: readonly string[],
  files: Machine,
): Promise<{ readonly exit: Exit; readonly output: string }> {
  const json = words.includes("--json");
  const named = namedFiles(words);
  if (named.lacking)
    return {
      exit: 64,
      output: FILE_OPTIONS.includes(named.lacking)
        ? `Name a file after ${named.lacking}.`
        : `Give a value after ${named.lacking}.`,
    };
  const { rest } = named;
  const pdfFile = named.files["--pdf"];
  const listFile = named.files["--infusates"];
  const unknown = rest.filter(
    (word) => word.startsWith("--") && !["--json", "--help", "--read", ...FLAGS].includes(word),
  );
  const [name = "help", ...others] = rest.filter((word) => !word.startsWith("--"));
  const command = commands.find((one) => one.name === name);
  const own = command ? helpOf(command) : help;
  if (unknown.length > 0) return { exit: 64, output: `Unknown option ${unknown.join(", ")}.\n\n${own}` };
  if (name === "help" || words.includes("--help")) return { exit: 0, output: own };
  if (!command) return { exit: 64, output: `No command "${name}".\n\n${help}` };
  const what = command.takes ? (others.shift() ?? "") : "";
  const [argument = "", ...more] = others;
  if (command.takes && !command.takes.includes(what))
    return { exit: 64, output: `Name one of: ${command.takes.join(", ")}. Usage: ${command.usage}` };
  if (more.length > 0 && !command.readsSeveral)
    return { exit: 64, output: `One file at a time; "${more.join(" ")}" is too many.` };
  if (pdfFile && !command.pdf) return { exit: 64, output: `"${name}" has no paper. Leave --pdf out.` };
  if (listFile && !command.readsList)
    return { exit: 64, output: `"${name}" reads no drug list. Leave --infusates out.` };
  const memoryFile = named.files["--memory"];
  if (memoryFile && !command.readsMemory)
    return { exit: 64, output: `"${name}" reads no memory of the service. Leave --memory out.` };
  const line = named.files["--line"] ?? "";
  const readBack = words.includes("--read");
  if (line !== "" && !command.picksLine) return { exit: 64, output: `"${name}" picks no line. Leave --line out.` };
  if (readBack && !command.readsBack) return { exit: 64, output: `"${name}" reads nothing back. Leave --read out.` };
  const options: Record<string, string> = {};
  for (const [word, value] of Object.entries(named.files)) {
    if (FILE_OPTIONS.includes(word)) continue;
    if (!command.options?.includes(word)) return { exit: 64, output: `"${name}" has no ${word}. Leave it out.` };
    options[word.slice(2)] = value;
  }
  const asked = {
    what,
    line,
    readBack,
    moment: files.moment(),
    stamp: files.stamp?.() ?? "",
    store: options["store"] ?? files.store ?? "data/veinwright.sqlite",
  };
  if (!command.readsFile)
    return command.run({ text: "", argument, json, today: files.today(), options, texts: [], ...asked });
  const fromRecord = command.readsRecord === true && options["store"] !== undefined;
  if (fromRecord && argument !== "")
    return { exit: 64, output: `Name a file or --store, not both: "${argument}" is too much.` };
  if (argument === "" && !fromRecord)
    return { exit: 64, output: `Name a file, or - for standard input: ${command.usage}` };
  const given = rest.filter((word) => FLAGS.includes(word));
  const foreign = given.find((word) => !command.flags?.includes(word));
  if (foreign) return { exit: 64, output: `"${name}" has no ${foreign}. Leave it out.` };
  if (command.stream && files.pieces) {
    if (argument === "-") return { exit: 64, output: `"${name}" reads its file twice. Name a file, not -.` };
    try {
      const { read, today } = files;
      return await command.stream({
        file: files.pieces(argument),
        json,
        today: today(),
        options,
        flags: given,
        read,
        begin: (name) => inPieces(name, files),
      });
    } catch (fault) {
      const { code, path } = fault as { readonly code?: unknown; readonly path?: unknown };
      if (typeof code !== "string") throw fault;
      const file = typeof path === "string" ? path : "a file named here";
      return { exit: 65, output: `Cannot read or write ${file} (${code}). Check the name and its folder.` };
    }
  }
  const texts: string[] = [];
  const read = fromRecord ? [] : [argument, ...more];
  for (const file of [...read, ...(listFile ? [listFile] : []), ...(memoryFile ? [memoryFile] : [])]) {
    try {
      texts.push(files.read(file));
    } catch {
      return { exit: 65, output: `Cannot read ${file}. Check the name of the file.` };
    }
  }
  const [text = ""] = texts;
  const list = listFile ? texts[read.length] : undefined;
  const memory = memoryFile ? { memory: texts.at(-1) as string } : {};
  const readTexts = read.map((file, at) => ({ name: file, text: texts[at] as string }));
  const answer = await command.run({
    text,
    argument,
    json,
    today: files.today(),
    options,
    texts: readTexts,
    ...asked,
    ...memory,
    ...(list === undefined ? {} : { list }),
  });
  if (!pdfFile) return answer;
  let bytes: Uint8Array | undefined;
  try {
    bytes = await command.pdf?.(text, files.now(), {
      ...asked,
      ...memory,
      today: files.today(),
      options,
      texts: readTexts,
    });
  } catch (error) {
    return { exit: 65, output: `${answer.output}\n\n${notSet(error)}` };
  }
  if (!bytes) return answer;
  try {
    files.write(pdfFile, bytes);
  } catch {
    const why = `Could not write the PDF to ${pdfFile}. Check the folder and that it may be written.`;
    return { exit: 65, output: `${answer.output}\n\n${why}` };
  }
  return json ? answer : { exit: answer.exit, output: `${answer.output}\n\nWritten to ${pdfFile}.` };
}

/** A folder is not to blame for a sign that no font has, such as a picture typed into a name. */
function notSet(error: unknown): string {
  const [, sign] = /the text `\\?"(.+?)\\?"` could not be displayed/.exec(String(error)) ?? [];
  return sign === undefined
    ? "Could not set the paper as a PDF."
    : `Could not set the paper: no font here prints ${sign}. Take it out of the entry.`;
}

const FILE_OPTIONS: readonly string[] = ["--pdf", "--infusates", "--line", "--memory"];
const FLAGS = commands.flatMap(({ flags = [] }) => flags);
const VALUED = new Set([...FILE_OPTIONS, ...commands.flatMap(({ options = [] }) => options)]);

/** The options that take a value, taken out of the words. */
function namedFiles(words: readonly string[]): {
  readonly files: Readonly<Record<string, string>>;
  readonly rest: readonly string[];
  readonly lacking?: string;
} {
  const files: Record<string, string> = {};
  const rest: string[] = [];
  for (let index = 0; index < words.length; index += 1) {
    const word = words[index] as string;
    if (!VALUED.has(word)) {
      rest.push(word);
      continue;
    }
    const file = words[index + 1];
    if (!file || file.startsWith("--")) return { files, rest, lacking: word };
    files[word] = file;
    index += 1;
  }
  return { files, rest };
}

const PIECE_CHARACTERS = 1_000_000;

/** Writes a file a piece at a time: a list of millions of faults is more than one text can hold. */
function inPieces(
  name: string,
  { write, append }: { readonly write: Write; readonly append?: Write | undefined },
): FileInPieces {
  let texts: string[] = [];
  let length = 0;
  let begun = false;
  const flush = () => {
    const bytes = new TextEncoder().encode(texts.join(""));
    if (begun) append?.(name, bytes);
    else write(name, bytes);
    [texts, length, begun] = [[], 0, true];
  };
  return {
    add: (text) => {
      texts.push(text);
      length += text.length;
      if (append !== undefined && length > PIECE_CHARACTERS) flush();
    },
    end: () => {
      if (texts.length > 0 || !begun) flush();
    },
  };
}
type Write = (name: string, bytes: Uint8Array) => void;
