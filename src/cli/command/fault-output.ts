import type { Fault } from "../../contract/index.ts";
import { sayFault } from "../../language/index.ts";
import type { Exit } from "./command.ts";

/** Enough to read; a spreadsheet of another kind has as many as rows. */
const MOST_SAID = 50;

/** Every fault of a file, as JSON or in words, and the exit of bad input data. */
export function faultOutput(
  faults: readonly Fault[],
  json: boolean,
  what: string,
): { readonly exit: Exit; readonly output: string } {
  const output = json
    ? JSON.stringify({ faults }, null, 2)
    : [
        `${faults.length} fault${faults.length === 1 ? "" : "s"} in the ${what}:`,
        ...faults.slice(0, MOST_SAID).map((fault) => `- ${sayFault(fault)}`),
        ...(faults.length > MOST_SAID ? [`- and ${faults.length - MOST_SAID} more; --json lists all.`] : []),
      ].join("\n");
  return { exit: 65, output };
}
