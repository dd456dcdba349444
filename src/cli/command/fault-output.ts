import type { Fault } from "../../contract/index.ts";
import { sayFault } from "../../language/index.ts";
import type { Exit } from "./command.ts";

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
        ...faults.map((fault) => `- ${sayFault(fault)}`),
      ].join("\n");
  return { exit: 65, output };
}
