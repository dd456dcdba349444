import { backupSentence, brokenLinkSentence, restoredSentence, wholeSentences } from "../../language/index.ts";
import { verifyStore, type Verification } from "../../register/index.ts";
import { backupStore, mustBeThere, openStore, restoreStore } from "../../store/index.ts";
import { recordRefused } from "./record-refused.ts";
import type { Command, Exit, Said } from "./command.ts";

type Whole = Verification & { readonly kind: "whole" };

/** Walks the whole record and says whether every link holds. */
export const verifyCommand: Command = {
  name: "verify",
  summary: "Check every link of the record, and name the first that is broken.",
  options: ["--store"],
  usage: "veinwright verify [--store PLACE] [--json]",
  readsFile: false,
  run: ({ json, store }) =>
    answered(store, json, async () => {
      mustBeThere(store);
      const record = await openStore(store);
      try {
        return verified(await verifyStore(record), json, { store }, wholeSentences);
      } finally {
        await record.close();
      }
    }),
};

/** Copies the record while it is in use, opens the copy and verifies it. */
export const backupCommand: Command = {
  name: "backup",
  summary: "Copy the record while it is in use, and verify the copy.",
  options: ["--store", "--to"],
  usage: "veinwright backup --to FOLDER [--store PLACE] [--json]",
  readsFile: false,
  run: async ({ json, store, options: { to }, stamp }) => {
    if (to === undefined) return { exit: 64, output: "Name the folder for the copy after --to." };
    return answered(store, json, async () => {
      const { file, verification } = await backupStore(store, to, stamp);
      return verified(verification, json, { store, file }, ({ events }) => [backupSentence(file, events)]);
    });
  },
};

/** Brings a backup to an empty place and verifies it there. */
export const restoreCommand: Command = {
  name: "restore",
  summary: "Bring a backup to an empty place, and verify it there.",
  options: ["--to"],
  usage: "veinwright restore BACKUP --to PLACE [--json]",
  readsFile: false,
  run: async ({ json, argument, options: { to } }) => {
    if (argument === "") return { exit: 64, output: "Name the backup to restore." };
    if (to === undefined) return { exit: 64, output: "Name an empty place after --to." };
    return answered(to, json, async () =>
      verified(await restoreStore(argument, to), json, { backup: argument, place: to }, ({ events }) => [
        restoredSentence(to, events),
      ]),
    );
  },
};

function verified(
  verification: Verification,
  json: boolean,
  where: Readonly<Record<string, string>>,
  whole: (verification: Whole) => readonly string[],
): Said {
  const exit: Exit = verification.kind === "whole" ? 0 : 3;
  const said = verification.kind === "whole" ? whole(verification).join("\n") : brokenLinkSentence(verification.first);
  return { exit, output: json ? JSON.stringify({ ...where, ...verification, said }, null, 2) : said };
}

/** A refusal is an answer; what the database itself says is added to it in its own words. */
async function answered(place: string, json: boolean, work: () => Promise<Said>): Promise<Said> {
  try {
    return await work();
  } catch (error) {
    const refused = recordRefused(error, place);
    const because = refused.cause instanceof Error ? ` (${refused.cause.message})` : "";
    const said = `${refused.said}${because}`;
    const exit: Exit = refused.code === "already-there" ? 3 : 65;
    return {
      exit,
      output: json ? JSON.stringify({ refused: refused.code, place: refused.place, said }, null, 2) : said,
    };
  }
}
