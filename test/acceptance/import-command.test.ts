import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Matching } from "../../src/spreadsheet/index.ts";
import { answersOf, makeYear } from "../specification/spreadsheet-year.ts";

/** The built command, as a person would type it: a spreadsheet nobody has seen becomes a pack in one sitting. */
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "veinwright-import-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const command = join(process.cwd(), "dist/cli/main.js");
const run = (...words: readonly string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { exit: status, output: stdout + stderr };
};

/** Rows and words of the kinds of fault that a reader of one file can see. */
const TOLD: Readonly<Record<string, string>> = {
  "removed before placed": "Removed before it was placed.",
  "gauge written for French": "No line has such a value.",
  "arm contradicts the vein": "The arm and the vein name different sides.",
  "event long after removal": "The event is after the removal.",
  "row entered twice": "The same line stands twice.",
  "two lines overlap, same arm": "Another line of this patient was still in.",
  "day that does not exist": "The date of placing cannot be read.",
  "number in words": "Not a plain number.",
  "no patient number": "No patient number.",
  "vein in the other unit": "Outside the usual",
  "text that is a formula": "The text begins like a formula.",
};

for (const number of [0, 4, 11])
  test(`house ${number + 1}: suggested, answered, faults listed, agreed, audited and packed`, () => {
    const made = makeYear(number);
    const name = made.house.encoding.startsWith("XLSX") ? `year-${number}.xlsx` : `year-${number}.csv`;
    writeFileSync(join(folder, name), made.bytes);
    const suggested = run("import", name, "--json");
    expect(suggested.exit, suggested.output.slice(0, 300)).toBe(2);
    const matching = JSON.parse(suggested.output) as Matching;
    expect(run("import", name).output).toContain("Suggested, to be confirmed:");

    const answers = answersOf(made);
    const answered = {
      ...matching,
      confirmedBy: "invented person",
      columns: matching.columns.map(({ header, field, unit }) => ({
        header,
        field,
        ...(answers.order ? { order: answers.order } : {}),
        ...(answers.serialSystem ? { serialSystem: answers.serialSystem } : {}),
        twoDigitUpTo: field === "birthDate" ? 25 : 99,
        unit: field === "sizeFr" || field === "veinDiameterMm" ? answers.unit[field] : unit,
      })),
    };
    writeFileSync(join(folder, "matching.json"), JSON.stringify(answered));
    const preview = run("import", name, "--matching", "matching.json", "--faults", "faults.csv");
    expect(preview.exit, preview.output.slice(0, 300)).toBe(2);
    expect(preview.output).toContain("Nothing was imported.");
    const faults = readFileSync(join(folder, "faults.csv"), "utf8").split("\r\n");
    for (const { kind, rows } of made.seeded) {
      const words = TOLD[kind];
      if (words === undefined) continue;
      const told = faults.some((line) => rows.some((row) => line.startsWith(`${row},`)) && line.includes(words));
      expect(told, `${kind} in rows ${rows.join(", ")}`).toBe(true);
    }

    const agree = ["import", name, "--matching", "matching.json", "--agree", "--table"];
    const first = run(...agree, "lines.csv", "--lines", "kept.json");
    expect(first.exit, first.output).toBe(0);
    const table = readFileSync(join(folder, "lines.csv"), "utf8");
    // salted: the same file, agreed to again, shares no key
    run(...agree, "again.csv");
    const keys = (text: string) =>
      new Set(
        text
          .split("\r\n")
          .slice(1)
          .map((line) => line.split(",")[2]),
      );
    const again = keys(readFileSync(join(folder, "again.csv"), "utf8"));
    expect([...keys(table)].filter((key) => key !== undefined && key !== "" && again.has(key))).toEqual([]);

    const taken = Number(/^(\d+) lines taken/.exec(first.output)?.[1]);
    const audit = run("audit", "lines.csv", "--from", "2025-01-01", "--to", "2026-01-01");
    expect([0, 2], audit.output.slice(0, 300)).toContain(audit.exit);
    expect(audit.output).toContain(`${taken} of ${taken} lines used.`);
    const pack = run("pack", "lines.csv", "--month", "2025-12");
    expect([0, 2], pack.output.slice(0, 300)).toContain(pack.exit);
    for (const title of ["1. The month", "2. Time", "3. Where and with what", "4. People and things to do"])
      expect(pack.output).toContain(title);
    // next month: every row is known
    const known = run("import", name, "--matching", "matching.json", "--known", "kept.json");
    expect(known.output).toContain("0 new lines.");
  });

// a service's own habits, invented: one ward spelled two ways, and "yes" where a day belongs
test("wards are asked about, merged by the matching's key, and a blockage of no day leaves as one of no day", () => {
  const rows = ["1,2025-05-01,2025-05-11,Ward 4,yes", "2,2025-05-02,2025-05-12,W4,2025-05-07"];
  writeFileSync(join(folder, "log.csv"), ["MRN,Date placed,Date out,Ward,Blocked date", ...rows].join("\n"));
  const matching = JSON.parse(run("import", "log.csv", "--json").output) as Matching;
  const keep = (more: object) =>
    writeFileSync(join(folder, "log.json"), JSON.stringify({ ...matching, confirmedBy: "ip", ...more }));
  const ask = ["import", "log.csv", "--matching", "log.json"];
  keep({});
  expect(run(...ask).output).toContain('- {"name":"","spellings":["W4","Ward 4"]}');
  keep({ wards: [{ name: "Ward 5", spellings: ["W4", "Ward 4"] }] });
  expect(run(...ask).output).toContain("Different numbers are different wards.");
  keep({ wards: [{ name: "Ward 4", spellings: ["W4", "Ward 4"] }] });
  const merged = run(...ask).output;
  expect(merged).toContain("1 x The spelling of the ward was merged");
  expect(merged).not.toContain("One ward in several spellings?");
  expect(run(...ask, "--agree", "--table", "log-lines.csv").exit).toBe(0);
  const table = readFileSync(join(folder, "log-lines.csv"), "utf8");
  expect(table.match(/,Ward 4,/g)?.length).toBe(2);
  expect(table).toContain("occlusion@not known");
  const { figures } = JSON.parse(
    run("audit", "log-lines.csv", "--from", "2025-05-01", "--to", "2025-06-01", "--json").output,
  ) as { readonly figures: readonly { readonly measure: string; readonly missing: { readonly count: number } }[] };
  expect(figures.find(({ measure }) => measure === "occlusion")?.missing.count).toBe(1);
});
