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
  },
): Promise<{ readonly exit: Exit; readonly output: string }> {
  const json = words.includes("--json");
  const pdfAt = words.indexOf("--pdf");
  const pdfFile = pdfAt === -1 ? undefined : words[pdfAt + 1];
  const rest = pdfAt === -1 ? words : words.toSpliced(pdfAt, 2);
  if (pdfAt !== -1 && (!pdfFile || pdfFile.startsWith("--")))
    return { exit: 64, output: "Name the file to write after --pdf." };
  const unknown = rest.filter((word) => word.startsWith("--") && !["--json", "--help"].includes(word));
  const [name = "help", argument = ""] = rest.filter((word) => !word.startsWith("--"));
  if (unknown.length > 0) return { exit: 64, output: `Unknown option ${unknown.join(", ")}.\n\n${help}` };
  if (name === "help" || words.includes("--help")) return { exit: 0, output: help };
  const command = commands.find((one) => one.name === name);
  if (!command) return { exit: 64, output: `No command "${name}".\n\n${help}` };
  if (!command.readsFile) return command.run({ text: "", argument, json });
  if (argument === "") return { exit: 64, output: `Name a file, or - for standard input: ${command.usage}` };
  let text: string;
  try {
    text = files.read(argument);
  } catch {
    return { exit: 65, output: `Cannot read ${argument}. Check the name of the file.` };
  }
  const answer = command.run({ text, argument, json });
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
