import { createHash } from "node:crypto";
import { exportLines, lineTableSchema } from "../../audit/index.ts";
import { exportWarnings } from "../../language/index.ts";
import type { Command } from "./command.ts";
import { disguiseBy, legendOf } from "./disguise.ts";
import { lineTableInput } from "./line-table.ts";

/**
 * The line table without identity: CSV on its own, or with --json its Frictionless package with schema and checksum.
 * The secret is made from the whole file: whoever does not have the file cannot move a date back by it.
 */
export const exportCommand: Command = {
  name: "export",
  summary: "Write a line table without identity, with its schema and checksum.",
  usage: "veinwright export LINES.csv [--as-of DAY] [--legend yes] [--json]",
  readsFile: true,
  options: ["--as-of", "--legend"],
  run: (asked) => {
    const input = lineTableInput(asked);
    if ("kind" in input) return { exit: input.exit, output: input.output };
    const exported = exportLines(input.table, disguiseBy(asked.text), input.limits);
    const legend = legendOf(asked.options, exported.words);
    if (legend) return legend;
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
          schema: lineTableSchema(exported.words),
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
