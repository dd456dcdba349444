import { createHash, createHmac } from "node:crypto";
import { houseCodes, withHouseWordsCoded, type AuditTable, type Disguise, type HouseWord } from "../../audit/index.ts";
import { houseWordsCsv } from "../../language/index.ts";
import type { Said } from "./command.ts";

/** Up to a year back; never none, so that no date stands as it was, and never on, past the day of the table. */
const MOST_DAYS = 364;

/** The disguise of one file: its secret is the whole file, so that who does not have it undoes nothing. */
export function disguiseBy(text: string): Disguise {
  const secret = createHash("sha256").update(text).digest();
  const digest = (what: string) => createHmac("sha256", secret).update(what).digest();
  return {
    keyOf: (kind, name) => `${kind[0]?.toUpperCase() ?? ""}-${digest(`${kind}|${name}`).toString("hex").slice(0, 12)}`,
    shiftDaysOf: (patient) => {
      const draw = digest(`shift|${patient}`).readUInt32BE(0) % MOST_DAYS;
      return -1 - draw;
    },
  };
}

/** A table as it may leave, its words as codes. A record has no file: its secret is the keys of its lines and people. */
export function codedFor(
  table: AuditTable,
  text: string,
): { readonly table: AuditTable; readonly words: readonly HouseWord[] } {
  const secret = text === "" ? table.lines.map(({ key, patient }) => `${key}|${patient}`).join("\n") : text;
  return withHouseWordsCoded(table, houseCodes(disguiseBy(secret)));
}

/** The legend alone, where the house asks for it: it is never printed beside what leaves. */
export const legendOf = (options: Readonly<Record<string, string>>, words: readonly HouseWord[]): Said | undefined =>
  options["legend"] === "yes" ? { exit: 0, output: houseWordsCsv(words) } : undefined;
