import { readFileSync, readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { lineSentences } from "./line-finding.ts";

/** Codes as they stand in the rooms that make them, read off the source: a code without words fails here. */
const codesOf = (folder: string): readonly string[] =>
  readdirSync(folder)
    .filter((file) => file.endsWith(".ts") && !file.endsWith(".test.ts"))
    .flatMap((file) =>
      [
        ...readFileSync(`${folder}/${file}`, "utf8").matchAll(
          /"((?:film|tip|release|vesicant|sides?|numbers|line)-[a-z-]+)"/g,
        ),
      ].map(([, code]) => code as string),
    );

test("every finding of a film and a release has its words", () => {
  const codes = [...new Set([...codesOf("src/core/tip"), ...codesOf("src/core/release")])];
  expect(codes.length).toBeGreaterThan(30);
  expect(codes.filter((code) => !(code in lineSentences))).toEqual([]);
});
