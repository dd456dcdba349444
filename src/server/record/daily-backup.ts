import { existsSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { lookHourly, type HourlyLook } from "./hourly-look.ts";

/** The names the store gives its backups: nothing else in the folder is counted or taken away. */
const NAME = /^veinwright-(\d{4}-\d{2}-\d{2})T(\d{2})-(\d{2})-(\d{2})Z\.(sqlite|ndjson)$/;

/** What is known of the backups that the server makes by itself. */
export interface BackupStanding {
  readonly folder: string;
  readonly keep: number;
  readonly count: number;
  /** When the newest was made, "" while there is none. */
  readonly newestAt: string;
  /** Why the last try left none, "" where it did not fail. */
  readonly failed: string;
}

export interface DailyBackup extends HourlyLook {
  readonly standing: () => BackupStanding;
}

/** Copies the record into a folder, opens the copy and verifies it; says whether it is whole. */
export type MakeBackup = (folder: string) => Promise<{ readonly good: boolean }>;

/**
 * Makes one backup a day by itself: looks now and every hour whether today's is there, and takes the oldest away beyond
 * those that are kept, only after a new one was verified. Days are those of the clock in UTC, as the names are.
 */
export function keepDailyBackups(
  { folder, keep, make }: { readonly folder: string; readonly keep: number; readonly make: MakeBackup },
  now: () => Date,
  log: (line: string) => void,
): DailyBackup {
  let failed = "";
  const today = (): string => now().toISOString().slice(0, 10);
  const look = async (): Promise<void> => {
    try {
      if (namesIn(folder, today()).some((name) => NAME.exec(name)?.[1] === today())) return;
      failed = (await make(folder)).good ? "" : "not whole";
      // a record that is not whole must not push out the last good copies of it
      if (failed === "") for (const name of namesIn(folder, today()).slice(keep)) rmSync(join(folder, name));
    } catch (error) {
      failed = nameOf(error);
    }
    if (failed !== "") log(JSON.stringify({ dailyBackup: failed }));
  };
  return {
    ...lookHourly(look),
    standing: () => {
      try {
        const names = namesIn(folder, today());
        const [, day, hour, minute, second] = NAME.exec(names[0] ?? "") ?? [];
        const newestAt = day === undefined ? "" : `${day}T${hour}:${minute}:${second}Z`;
        return { folder, keep, count: names.length, newestAt, failed };
      } catch (error) {
        // a folder that cannot be looked into holds no backup anybody could count on
        return { folder, keep, count: 0, newestAt: "", failed: nameOf(error) };
      }
    },
  };
}

const nameOf = (error: unknown): string => (error instanceof Error ? error.name : "unknown");

/**
 * The backups of a folder by their names, the newest first. One named for a day that has not come was made under a clock
 * that went ahead: it would pass for the newest and push the true ones out, so it is neither counted nor taken away.
 */
const namesIn = (folder: string, today: string): readonly string[] =>
  existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => (NAME.exec(name)?.[1] ?? "9999") <= today)
        .sort()
        .toReversed()
    : [];
