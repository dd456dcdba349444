import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";

/*
 * What a person in a hurry reads: the first sentence of each command on a line table holds the answer, and every odd table,
 * word and day is answered in words with the exit that docs/reference/command-line.md gives. Numbers: R's count of the same
 * file (reference/independent/r/pack-golden.json, count-year-golden.json). The rest: common practice, no source.
 */
const pack = readFileSync("reference/independent/r/pack-year.csv", "utf8");
const year = readFileSync("reference/independent/r/count-year.csv", "utf8");
const HEAD = "line_key,patient_key,placed_at,end_kind,end_at,end_reason,ward,lumens,events";
const row = (key: string, month: number, ward: string, events: string): string =>
  `${key},p${key},2025-0${month}-03,removed,2025-0${month}-20,treatment ended,${ward},${1 + (month % 3)},${events}`;
const many = (wards: number): string =>
  [
    HEAD,
    ...Array.from({ length: wards }, (_, at) =>
      [1, 2, 3].map((month) =>
        // the eighth ward has two blocks at every line; every fifth line of the others one
        row(
          `${at}-${month}`,
          month,
          `W${at}`,
          at === 7
            ? `occlusion@2025-0${month}-05; occlusion@2025-0${month}-09`
            : (at * 3 + month) % 5 === 0
              ? `occlusion@2025-0${month}-08`
              : "none",
        ),
      ),
    ).flat(),
  ].join("\n");
const texts: Readonly<Record<string, string>> = {
  pack,
  year,
  empty: "",
  "head only": HEAD,
  one: [HEAD, row("1", 2, "A", "none")].join("\n"),
  quiet: [HEAD, ...Array.from({ length: 30 }, (_, at) => row(`${at}`, 1 + (at % 9), "A", "none"))].join("\n"),
  wards: many(300),
};
const run = (file: string, name: string, ...more: readonly string[]) =>
  runCommandLine([name, file, ...more], {
    read: (asked) => {
      const text = texts[asked];
      if (text === undefined) throw new Error("no such file");
      return text;
    },
    write: () => undefined,
    now: () => "15 Jan 2026, 12:00",
    today: () => parseCivilDate("2026-01-15") as CivilDate,
    moment: () => parseInstant("2026-01-15T12:00+01:00") as Instant,
  });
const firstLine = async (...words: Parameters<typeof run>): Promise<string> =>
  (await run(...words)).output.split("\n")[0] as string;

describe("the first sentence holds the answer", () => {
  test("of rates: all complications over the line-days, as R has them", async () => {
    const golden = JSON.parse(readFileSync("reference/independent/r/pack-golden.json", "utf8")) as Record<
      string,
      number
    >;
    const of = (part: string) => golden[`pack-year|year|any-complication|${part}`] as number;
    const said = await firstLine("pack", "rates", "--from", "2025-01-01", "--to", "2026-01-01");
    expect(said).toBe(
      `All complications together: ${of("numerator")} in ${Math.round(of("denominator")).toLocaleString("en-GB")} line-days, ${of("value").toFixed(2)} per 1,000 (${of("lower").toFixed(2)} to ${of("upper").toFixed(2)}).`,
    );
  });

  test.each([
    [
      ["year", "audit"],
      /^Bloodstream infections the ward concluded, higher: 2\.58 per 1,000; before, 0\.99 per 1,000\.$/,
    ],
    [
      ["year", "survival", "--measure", "occlusion"],
      /^Blocked lines: by day 30 in \d+\.\d % \(.* to .*\) of \d+ lines\.$/,
    ],
    [
      ["year", "survival", "--measure", "occlusion", "--by", "lumens"],
      /^Blocked lines, \d+ in \d+ lines: groups differ/,
    ],
    [["year", "cox", "--measure", "occlusion", "--factors", "lumens"], /^Blocked lines: .*by \d+ events\.$/],
    [["year", "chart", "--from", "2025-10-01"], /^(Look: \d+ signals?\.|No signal: \d+ alarms? kept|No alarm is kept)/],
    [["year", "map", "--measure", "occlusion"], /^Blocked lines: .*\d+ events\b/],
  ] as const)("of %s", async (words, answer) => {
    expect(await firstLine(...(words as unknown as Parameters<typeof run>))).toMatch(answer);
  });

  test("of services counted together: whether their groups can be told apart, as the limits of the ratio have it", async () => {
    const made = await Promise.all(
      ["a", "b"].map((name) => run("pack", "pool", "--service", name, "--measure", "occlusion", "--by", "side")),
    );
    const [a = "", b = ""] = made.map(({ output }) => output);
    const { output } = await runCommandLine(["pool", "a", "b"], {
      read: (name) => (name === "a" ? a : b),
      write: () => undefined,
      now: () => "",
      today: () => parseCivilDate("2026-01-15") as CivilDate,
      moment: () => parseInstant("2026-01-15T12:00+01:00") as Instant,
    });
    const [, lower, upper] = /right arm: [\d.]+ \(([\d.]+) to ([\d.]+)\), Mantel-Haenszel/.exec(output) ?? [];
    expect([Number(lower) < 1, Number(upper) > 1]).toEqual([true, true]);
    expect(output).toMatch(/^Blocked lines: left arm and right arm cannot be told apart\./);
  });

  test("parts are named by what they are parts of", async () => {
    const { output } = await run("year", "survival", "--measure", "occlusion", "--by", "lumens");
    expect(output).toMatch(/\nlumens 1: \d+ lines/);
    expect(output).not.toMatch(/\n1: /);
  });

  test("lines left out by a rule are told where a curve is read", async () => {
    expect((await run("pack", "survival", "--measure", "thrombosis")).output).toMatch(
      /48 of 420 lines are left out until mended; audit names them\./,
    );
  });
});

describe("of what nobody ever wrote", () => {
  test.each([
    ["survival", "--measure", "leak-or-break"],
    ["cox", "--measure", "leak-or-break", "--factors", "lumens"],
    ["map", "--measure", "leak-or-break"],
  ])("%s says so first, and no chance, no ratio and no rate", async (name, ...more) => {
    const { output } = await run("pack", name, ...more);
    expect(output).toMatch(/^Leaks and breaks: none written in the whole table\. Perhaps nobody asks\./);
    expect(output).not.toMatch(/By day|per 1,000|too few|%/);
    const json = JSON.parse((await run("pack", name, ...more, "--json")).output) as { readonly neverWritten: boolean };
    expect(json.neverWritten).toBe(true);
  });

  test("a chart tells of it no nought, month for month", async () => {
    const ask = ["--measure", "leak-or-break", "--from", "2025-07-01"] as const;
    const { output } = await run("pack", "chart", ...ask);
    expect(output).toContain("Leaks and breaks: none written in the whole table. Perhaps nobody asks.");
    expect(output).not.toMatch(/0 in \d/);
    const all = (await run("pack", "chart", "--measure", "any-complication", "--from", "2025-07-01")).output;
    expect(all).toContain("Not in it, for nobody ever wrote one: leak or break.");
  });
});

describe("figures in parts", () => {
  const ask = ["rates", "--by", "ward", "--as-of", "2025-06-01"] as const;

  test("a ward has one line, not one for each measure, and who stands outside is named beside what chance does", async () => {
    const { output } = await run("wards", ...ask);
    expect(output.split("\n").filter((line) => /^ {2}ward W/.test(line))).toHaveLength(300);
    expect(output.split("\n").length).toBeLessThan(340);
    expect(output).toContain("  ward W7: Blocked lines 6 in 51, 117.65 per 1,000 (43.17 to 256.07)");
    // R 4.2: 1000 * poisson.test(6)$conf.int / 51 = 43.174, 256.066
    // under one event expected of each: none is judged, and none is called out
    expect(output).toContain("All 300 wards expect too few events to be judged.");
    expect((await run("year", "rates", "--by", "ward")).output).toMatch(
      /B stands above its limits: 14, 8\.3 expected\.\n {2}Chance alone puts about 0\.1 of 5 outside\./,
    );
  });

  test("a measure is named to be read whole, and all of them are in the JSON", async () => {
    const { output } = await run("pack", "rates", "--by", "ward", "--measure", "thrombosis");
    expect(output).toMatch(/ward Ash: Clots seen: \d+ in [\d,.]+ exact line-days: .*exact Poisson/);
    expect(output).not.toContain("Blocked lines");
    const { figures } = JSON.parse((await run("pack", "rates", "--by", "ward", "--json")).output) as {
      readonly figures: readonly { readonly measure: string; readonly stratum?: { readonly value: string } }[];
    };
    expect(figures.filter(({ measure, stratum }) => measure === "migration" && stratum?.value === "Ash")).toHaveLength(
      1,
    );
  });

  test("one look at all groups is told apart from one look at each", async () => {
    const drawn = await run("year", "rates", "--by", "ward", "--drawn", "yes", "--measure", "infection-clinical");
    if (drawn.output.includes("differ no more than chance"))
      expect(drawn.output).toContain(
        "That is one look at all of them (Pearson). One by one is 5 looks: one may stand out.",
      );
    expect(drawn.output).toContain("infections the ward concluded by ward");
  });
});

describe("an odd table, word or day is answered in words", () => {
  const calls = [
    ["audit"],
    ["rates", "--by", "ward"],
    ["survival", "--measure", "occlusion", "--by", "lumens"],
    ["cox", "--measure", "occlusion", "--factors", "lumens"],
    ["chart"],
    ["map", "--measure", "occlusion"],
    ["export"],
  ] as const;
  test.each(
    calls.flatMap((call) =>
      (["empty", "head only", "one", "quiet", "wards"] as const).map((file) => [file, call] as const),
    ),
  )("a table that is %s, asked by %s", async (file, [name, ...more]) => {
    const { exit, output } = await run(file, name, ...more);
    const exits = file === "empty" || file === "head only" ? [65] : [0, 2, 3];
    expect(exits).toContain(exit);
    expect(output).not.toMatch(/undefined|NaN|Infinity|\[object/);
    expect(output.split("\n")[0]).not.toBe("");
  });

  test("a measure there is none of, with those there are: 64", async () => {
    for (const [name, ...more] of [
      ["rates"],
      ["audit"],
      ["chart"],
      ["map"],
      ["survival"],
      ["cox", "--factors", "lumens"],
    ] as const) {
      const { exit, output } = await run("year", name, ...more, "--measure", "rain");
      expect(exit, name).toBe(64);
      expect(output, name).toMatch(/^No measure "rain"\. There are: /);
      expect(output).toContain("thrombosis");
    }
  });

  test("a day of the table before all of its lines, and a period after it: 64, and what to do", async () => {
    for (const [name, ...more] of calls) {
      const before = await run("year", name, ...more, "--as-of", "2001-01-01");
      expect([before.exit, before.output]).toEqual([
        64,
        "Nothing was in place by Mon 1 Jan 2001: all 900 lines lie later. Check --as-of.",
      ]);
    }
    const after = await run("year", "rates", "--from", "2030-01-01", "--to", "2031-01-01");
    expect(after.exit).toBe(64);
    expect(after.output).toContain("Ask for an earlier period.");
  });

  test("a chart of the first year says what a base is, and what to name: 3", async () => {
    const { exit, output } = await run("pack", "chart", "--from", "2025-01-01");
    expect(exit).toBe(3);
    expect(output).toContain("there is nothing to hold this period against");
    expect(output).toContain("Name a later --from: a base has at least 20 events of a kind.");
  });

  test("--help after a command is of that command, with the words its options take", async () => {
    const { exit, output } = await run("year", "rates", "--help");
    expect(exit).toBe(0);
    expect(output).toContain("A measure is one of: infection-surveillance,");
    expect(output).toContain("--by splits by: ward,");
    expect(output).not.toContain("veinwright audit");
    const odd = await run("year", "rates", "--colour");
    expect([odd.exit, odd.output.split("\n")[0]]).toEqual([64, "Unknown option --colour."]);
  });
});

describe("an export read again by the same day of the table", () => {
  test("has every line, every event and every line-day, and none lies in the future", async () => {
    const ask = ["--from", "2023-12-01", "--to", "2026-01-15", "--as-of", "2026-01-15", "--json"] as const;
    const { output: csv } = await run("pack", "export", "--as-of", "2026-01-15");
    const again = await runCommandLine(["audit", "again", ...ask], {
      read: () => csv,
      write: () => undefined,
      now: () => "",
      today: () => parseCivilDate("2026-01-15") as CivilDate,
      moment: () => parseInstant("2026-01-15T12:00+01:00") as Instant,
    });
    type Told = {
      readonly linesUsed: number;
      readonly issues: readonly { readonly code: string }[];
      readonly figures: readonly { readonly measure: string; readonly numerator: number }[];
    };
    const [then, now] = [(await run("pack", "audit", ...ask)).output, again.output].map(
      (text) => JSON.parse(text) as Told,
    );
    expect(now?.linesUsed).toBe(then?.linesUsed);
    const of = (told: Told | undefined, id: string) => told?.figures.find(({ measure }) => measure === id)?.numerator;
    for (const id of ["any-complication", "line-days-exact", "placed", "removed"])
      expect(of(now, id), id).toBeCloseTo(of(then, id) as number, 6);
    const later = (told: Told | undefined) => told?.issues.filter(({ code }) => code === "T2").length;
    expect(later(now)).toBe(later(then));
  });
});
