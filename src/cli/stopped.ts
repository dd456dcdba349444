import { stoppedSentence } from "../language/index.ts";
import type { Exit } from "./command/index.ts";

/** A row of a stack that names a place in the program; the first rows carry the message of the error. */
const PLACE = /^\s+at /;

/**
 * What is said when the program itself fails: the kind of the error, never its message, for that may hold a cell of the
 * file. Where it happened is added only where it is asked for, and never to JSON.
 */
export function stopped(error: unknown, json: boolean, showsStack: boolean): { exit: Exit; output: string } {
  const kind = error instanceof Error ? error.constructor.name : typeof error;
  const said = stoppedSentence(kind);
  if (json) return { exit: 70, output: JSON.stringify({ stopped: kind, said }, null, 2) };
  const stack = error instanceof Error && showsStack ? (error.stack ?? "").split("\n") : [];
  // a message of several rows may begin one like a place: only the rows after its last are places
  const message = error instanceof Error ? error.message.split("\n").length : 0;
  return { exit: 70, output: [said, ...stack.slice(message).filter((row) => PLACE.test(row))].join("\n") };
}
