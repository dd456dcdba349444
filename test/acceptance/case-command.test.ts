import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import type { CivilDate } from "../../src/core/calendar/index.ts";
import { seal, told } from "../../src/register/index.ts";
import { practiceEvents } from "../practice-lines.ts";
import { commandDesk } from "../command-desk.ts";

/** What the command line says of published figures, and of one line as a story. Common practice, no source: nobody is named. */
const year = readFileSync("reference/independent/r/count-year.csv", "utf8");
const lines = JSON.stringify(practiceEvents);
const written = new Map<string, Uint8Array>();
const run = (...words: readonly string[]) =>
  runCommandLine(
    words,
    commandDesk(undefined, {
      read: (name) => (name === "year.csv" ? year : lines),
      write: (name, bytes) => written.set(name, bytes),
      today: () => "2026-01-01" as CivilDate,
    }),
  );
const ids = practiceEvents
  .filter(({ type }) => type === "LineInserted" || type === "LineFound")
  .map(({ subject }) => subject.slice("line:".length));
const names = practiceEvents
  .filter(({ type }) => type === "PatientRegistered")
  .flatMap(({ data }) =>
    ["name", "number"].flatMap((key) => {
      const said = data[key] as { readonly value?: unknown } | undefined;
      return typeof said?.value === "string" ? [said.value] : [];
    }),
  );

describe("audit", () => {
  // Evans RS and others 2010, Chest 138:803: 60 clots, 15,115 days
  test("shows published figures under the whole service's own, and leaves out the number of one counted otherwise", async () => {
    const { output } = await run("audit", "year.csv");
    expect(output).toContain("Elsewhere: 3.97 per 1,000 exact line-days, 60 in 15,115.");
    expect(output.match(/Elsewhere: 3\.97/g)).toHaveLength(1);
    expect(output).toContain("Their lines are not yours.");
    expect(output).toContain("Not put beside yours: adult wards, each line counted. Counted in line-days at census");
    expect(output).not.toMatch(/1\.22|9\.03/);
    // where the service is held against its own parts, nobody else's numbers stand between them
    expect((await run("audit", "year.csv", "--by", "ward")).output).not.toContain("Elsewhere:");
  });

  test("in JSON the same, each with its source, and what is counted otherwise without its value", async () => {
    const { elsewhere } = JSON.parse((await run("audit", "year.csv", "--json")).output) as {
      readonly elsewhere: readonly {
        readonly measure: string;
        readonly alike: readonly Readonly<Record<string, unknown>>[];
        readonly apart: readonly Readonly<Record<string, unknown>>[];
      }[];
    };
    const surveillance = elsewhere.find(({ measure }) => measure === "infection-surveillance");
    expect(surveillance?.alike).toEqual([]);
    expect(surveillance?.apart.length).toBeGreaterThan(2);
    for (const one of elsewhere.flatMap(({ apart }) => apart)) expect(one).not.toHaveProperty("value");
    for (const one of elsewhere.flatMap(({ alike }) => alike)) expect(one["source"]).toMatch(/\d{4}/);
  });
});

describe("case", () => {
  test.each(ids)("tells %s as words, CSV, JSON and a page, and names nobody in any of them", async (id) => {
    const words = await run("case", "line.json", "--line", id);
    const csv = await run("case", "line.json", "--line", id, "--as", "csv");
    const json = await run("case", "line.json", "--line", id, "--json");
    expect((await run("case", "line.json", "--line", id, "--pdf", `${id}.pdf`)).output).toContain("Written to");
    expect(
      Buffer.from(written.get(`${id}.pdf`) ?? [])
        .subarray(0, 5)
        .toString(),
    ).toBe("%PDF-");
    for (const { output, exit } of [words, csv, json]) {
      expect([0, 2]).toContain(exit);
      for (const name of names) expect(output).not.toContain(name);
      expect(output.replace(/"policyVersion": "[^"]*"/, "")).not.toMatch(/\b20\d\d\b|practice-|Ward|undefined|NaN/);
    }
    expect(csv.output.split("\r\n")[0]).toBe("day,what,fact,value,unit");
    expect(JSON.parse(json.output)).toMatchObject({ format: "line-story-1", dayZero: "day of the placing" });
    expect(words.output).toMatch(/Day 0: (Line placed|Line found)/);
  });

  test("a rare combination is exit 2 with its warning; a file of several lines asks which", async () => {
    expect(await run("case", "line.json", "--line", "practice-birk")).toMatchObject({
      exit: 2,
      output: expect.stringContaining("Ask before you show it.") as string,
    });
    expect(await run("case", "line.json")).toMatchObject({
      exit: 64,
      output: expect.stringContaining("Pick one with --line") as string,
    });
    expect(await run("case", "line.json", "--as", "song")).toMatchObject({ exit: 64 });
  });
});

test("a sign that no font prints is named, and the folder is not blamed for it", async () => {
  const events = practiceEvents.map((event) =>
    seal(
      event.type === "PatientRegistered" ? { ...event, data: { ...event.data, name: told("Heron \u{1F9EA}") } } : event,
    ),
  );
  const { exit, output } = await runCommandLine(
    ["paper", "patient-card", "l.json", "--line", "practice-birk", "--pdf", "card.pdf"],
    commandDesk(JSON.stringify(events)),
  );
  expect([exit, output.split("\n").at(-1)]).toEqual([
    65,
    "Could not set the paper: no font here prints \u{1F9EA}. Take it out of the entry.",
  ]);
});
