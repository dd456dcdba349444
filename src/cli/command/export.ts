import { createHash, createHmac } from "node:crypto";
import { exportLines, lineTableSchema, type Disguise } from "../../audit/index.ts";
import { exportWarnings } from "../../language/index.ts";
import type { Command } from "./command.ts";
import { lineTableInput } from "./line-table.ts";

/** Half a year either way; never zero, so that no date stands as it was. */
const MOST_DAYS = 182;

/**
 * The line table without identity: CSV on its own, or with --json its Frictionless package with schema and checksum.
 * The secret is made from the whole file: whoever does not have the file cannot move a date back by it.
 */
export const exportCommand: Command = {
  name: "export",
  summary: "Write a line table without identity, with its schema and checksum.",
  usage: "veinwright export LINES.csv [--as-of DAY] [--json]",
  readsFile: true,
  options: ["--as-of"],
  run: (asked) => {
    const input = lineTableInput(asked);
    if ("kind" in input) return { exit: input.exit, output: input.output };
    const exported = exportLines(input.table, disguiseBy(asked.text), input.limits);
    if (!asked.json) return { exit: 0, output: exported.csv };
    const bytes = Buffer.from(exported.csv, "utf8");
    const descriptor = {
      profile: "tabular-data-package",
      name: "lines-without-identity",
      resources: [
        {
          name: "lines",
          profile: "tabular-data-resource",
          path: "lines.csv",
          encoding: "utf-8",
          bytes: bytes.length,
          hash: `sha256:${createHash("sha256").update(bytes).digest("hex")}`,
          schema: lineTableSchema(),
        },
      ],
      rows: exported.rows,
      leftOut: exported.leftOut,
      // the true month would tell by how much a person's dates were moved
      rare: exported.rare.map(({ ageBand, diagnosis, people }) => ({ ageBand, diagnosis, people })),
      smallCells: exported.smallCells,
      warnings: exportWarnings(exported),
    };
    return {
      exit: exported.rare.length > 0 || exported.smallCells.length > 0 ? 2 : 0,
      output: JSON.stringify(descriptor, null, 2),
    };
  },
};

function disguiseBy(text: string): Disguise {
  const secret = createHash("sha256").update(text).digest();
  const digest = (what: string) => createHmac("sha256", secret).update(what).digest();
  return {
    keyOf: (kind, name) => `${kind[0]?.toUpperCase() ?? ""}-${digest(`${kind}|${name}`).toString("hex").slice(0, 12)}`,
    shiftDaysOf: (patient) => {
      const draw = (digest(`shift|${patient}`).readUInt32BE(0) % (2 * MOST_DAYS)) - MOST_DAYS;
      return draw >= 0 ? draw + 1 : draw;
    },
  };
}
