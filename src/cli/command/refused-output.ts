import { flowRefusal } from "../../language/index.ts";
import type { Exit } from "./command.ts";

/** What a model refuses to compute, in words or as JSON, and its exit. */
export function refusedOutput(reason: string, json: boolean): { readonly exit: Exit; readonly output: string } {
  const said = flowRefusal[reason] ?? `This cannot be: ${reason}.`;
  return { exit: 3, output: json ? JSON.stringify({ refused: reason, said }, null, 2) : said };
}
