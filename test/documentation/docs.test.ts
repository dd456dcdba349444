import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { generatedPages, readResults, validationPage, WORST_HEADING } from "../../script/docs.ts";
import { commands } from "../../src/cli/command/index.ts";
import { defaultPolicyTable } from "../../src/policy/index.ts";

const tracked = execFileSync("git", ["ls-files"], { encoding: "utf8" })
  .trim()
  .split("\n")
  .filter((file) => existsSync(file));
const pages = tracked.filter((file) => file.endsWith(".md"));

describe("the documents", () => {
  test("every link to a file resolves", () => {
    const broken = pages.flatMap((page) =>
      [...readFileSync(page, "utf8").matchAll(/\]\((?!https?:)([^)#]+)[^)]*\)/g)]
        .map((match) => match[1] as string)
        .filter((target) => !existsSync(join(dirname(page), target)))
        .map((target) => `${page}: ${target}`),
    );
    expect(broken).toEqual([]);
  });

  test("the files that the hazard log names exist", () => {
    const named = [
      ...readFileSync("docs/hazard-log.md", "utf8").matchAll(/\b(?:src|test|reference)\/[\w./-]+\.tsx?\b/g),
    ].map(([file]) => file);
    expect(named.length).toBeGreaterThan(8);
    expect(named.filter((file) => !existsSync(file))).toEqual([]);
  });

  test("generated pages are fresh", () => {
    for (const [file, text] of Object.entries(generatedPages())) expect(readFileSync(file, "utf8"), file).toBe(text);
  });

  test("the validation table is fresh and no comparison was skipped", () => {
    const results = readResults();
    expect(results.length).toBeGreaterThan(10);
    for (const result of results) expect(result.made, result.quantity).toBe(result.comparisons);
    const [page, worst] = readFileSync("docs/validation.md", "utf8").split(`\n${WORST_HEADING}`) as [string, string];
    expect(page).toBe(validationPage(results));
    // the last digits of the worst places differ from one machine to the next, their families and the promise do not
    const families = results.filter(({ unit }) => unit.startsWith("error /"));
    expect(families.length).toBeGreaterThan(15);
    for (const { quantity, made, worst: share } of families) {
      expect(worst).toContain(`| ${quantity} | ${made} | `);
      expect(share, quantity).toBeLessThanOrEqual(1);
    }
  });

  test("the two commands of the README exist, and every command is documented", () => {
    const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };
    expect(scripts["start"]).toBeDefined();
    expect(scripts["test"]).toBeDefined();
    const page = readFileSync("docs/reference/command-line.md", "utf8");
    for (const { name } of commands) expect(page).toContain(`\`${name}\``);
  });

  test("every dependency stands in the decision record", () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as Record<
      string,
      Record<string, string>
    >;
    const record = readFileSync("docs/decision/0002-parts.md", "utf8");
    const missing = Object.keys({ ...dependencies, ...devDependencies }).filter(
      (name) => !name.startsWith("@types/") && !record.includes(name),
    );
    expect(missing).toEqual([]);
  });

  test("every policy row says where it comes from", () => {
    for (const [key, row] of Object.entries(defaultPolicyTable)) {
      expect(row.source.length, key).toBeGreaterThan(5);
      if (row.howKnown === "published") expect(row.source, key).toMatch(/\d{4}|label/);
    }
  });
});
