import { readFileSync } from "node:fs";
import { runCommandLine } from "../src/cli/run.ts";
import type { CivilDate, Instant } from "../src/core/calendar/index.ts";

type Sources = Parameters<typeof runCommandLine>[1];

/**
 * The command line at one invented desk in one invented minute: every file is the one given, or read by its name, and
 * what is written out is thrown away.
 */
export const commandDesk = (file?: string, more: Partial<Sources> = {}): Sources => ({
  read: (name) => file ?? readFileSync(name, "utf8"),
  write: () => undefined,
  now: () => "26 Nov 2026, 11:02",
  today: () => "2026-11-26" as CivilDate,
  moment: () => "2026-11-26T11:02+00:00" as Instant,
  ...more,
});

/** The files of a how-to, taken from its page, so that what a reader copies is what is tested. */
export function samplesOf(howTo: string): (name: string) => Record<string, unknown> {
  const page = readFileSync(`docs/how-to/${howTo}.md`, "utf8");
  return (name) =>
    JSON.parse(new RegExp(`\`\`\`json ${name}\n([\\s\\S]*?)\`\`\``).exec(page)?.[1] ?? "null") as Record<
      string,
      unknown
    >;
}
