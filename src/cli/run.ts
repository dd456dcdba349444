import type { CivilDate } from "../core/calendar/index.ts";
import { commands, type Exit } from "./command/index.ts";

const help = [
  "veinwright: decision support for placing and looking after PICCs",
  "",
  ...commands.map(({ usage, summary }) => `  npx --no ${usage}\n      ${summary}`),
  "",
  "A file named - is standard input. Exit: 0 answered, 2 a question is open, 3 refused, 64 bad usage, 65 bad data.",
].join("\n");

/** Runs one call of the command line; files are read through the function handed in. */
export async function runCommandLine(
  words: readonly string[],
  files: {
    readonly read: (name: string) => string;
    readonly write: (name: string, bytes: Uint8Array) => void;
    readonly now: () => string;
    readonly today: () => CivilDate;
    readonly stamp?: () => string;
    /** The address of the record when --store is not given. */
    readonly store?: string;
  },
): Promise<{ readonly exit: Exit; readonly output: string }> {
  const json = words.includes("--json");
  const named = namedFiles(words);
  if (named.lacking) return { exit: 64, output: `Name a file or place after ${named.lacking}.` };
  const { rest } = named;
  const pdfFile = named.files["--pdf"];
  const listFile = named.files["--infusates"];
  const toPlace = named.files["--to"];
  const unknown = rest.filter((word) => word.startsWith("--") && !["--json", "--help"].includes(word));
  const [name = "help", argument = "", ...more] = rest.filter((word) => !word.startsWith("--"));
  if (unknown.length > 0) return { exit: 64, output: `Unknown option ${unknown.join(", ")}.\n\n${help}` };
  if (name === "help" || words.includes("--help")) return { exit: 0, output: help };
  const command = commands.find((one) => one.name === name);
  if (!command) return { exit: 64, output: `No command "${name}".\n\n${help}` };
  if (more.length > 0) return { exit: 64, output: `One file at a time; "${more.join(" ")}" is too many.` };
  if (pdfFile && !command.pdf) return { exit: 64, output: `"${name}" has no paper. Leave --pdf out.` };
  if (listFile && !command.readsList)
    return { exit: 64, output: `"${name}" reads no drug list. Leave --infusates out.` };
  if (!command.readsStore && (toPlace || named.files["--store"]))
    return { exit: 64, output: `"${name}" does not open the record. Leave --store and --to out.` };
  if (!command.readsFile)
    return command.run({
      text: "",
      argument,
      json,
      today: files.today(),
      store: named.files["--store"] ?? files.store ?? "data/veinwright.sqlite",
      stamp: files.stamp?.() ?? "",
      ...(toPlace === undefined ? {} : { to: toPlace }),
    });
  if (argument === "") return { exit: 64, output: `Name a file, or - for standard input: ${command.usage}` };
  const texts: string[] = [];
  for (const file of [argument, ...(listFile ? [listFile] : [])]) {
    try {
      texts.push(files.read(file));
    } catch {
      return { exit: 65, output: `Cannot read ${file}. Check the name of the file.` };
    }
  }
  const [text = "", list] = texts;
  const answer = await command.run({
    text,
    argument,
    json,
    today: files.today(),
    ...(list === undefined ? {} : { list }),
  });
  if (!pdfFile) return answer;
  try {
    const bytes = await command.pdf?.(text, files.now());
    if (!bytes) return answer;
    files.write(pdfFile, bytes);
  } catch {
    const why = `Could not write the PDF to ${pdfFile}. Check the folder and that it may be written.`;
    return { exit: 65, output: `${answer.output}\n\n${why}` };
  }
  return json ? answer : { exit: answer.exit, output: `${answer.output}\n\nWritten to ${pdfFile}.` };
}

/** The options that name a file, taken out of the words. */
function namedFiles(words: readonly string[]): {
  readonly files: Readonly<Record<string, string>>;
  readonly rest: readonly string[];
  readonly lacking?: string;
} {
  const files: Record<string, string> = {};
  const rest: string[] = [];
  for (let index = 0; index < words.length; index += 1) {
    const word = words[index] as string;
    if (!["--pdf", "--infusates", "--store", "--to"].includes(word)) {
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
