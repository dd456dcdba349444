import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { practiceRecord } from "../../src/practice/index.ts";
import type { Subject } from "../../src/register/index.ts";
import { openStore } from "../../src/store/index.ts";
import { commandDesk } from "../command-desk.ts";
import { inventedEntry, WARD_NURSE } from "../invented-entry.ts";

/** Counting from the command line, on the invented year that R counted too. */
const year = readFileSync("reference/independent/r/count-year.csv", "utf8");
const run = (words: readonly string[], texts: Readonly<Record<string, string>> = { "year.csv": year }) =>
  runCommandLine(words, {
    read: (name) => {
      const text = texts[name];
      if (text === undefined) throw new Error("no such file");
      return text;
    },
    write: () => undefined,
    now: () => "1 Jan 2026, 12:00",
    today: () => parseCivilDate("2026-01-01") as CivilDate,
    moment: () => parseInstant("2026-01-01T12:00+01:00") as Instant,
  });

describe("count", () => {
  test("audit says figures with interval, name and rows; the record's holds make it 2", async () => {
    const { exit, output } = await run(["audit", "year.csv", "--by", "ward"]);
    expect(exit).toBe(2);
    expect(output).toContain("63 in 12,392 exact line-days: 5.08 per 1,000 (3.91 to 6.50, exact Poisson, 95\u202f%)");
    const parts = await run(["audit", "year.csv", "--by", "ward", "--measure", "first-attempt"]);
    expect(parts.output).toContain("ward A: In at the first attempt:");
    expect(output).toContain("49 lines: Out without a reason. Never taken as treatment ended. Rule T8.");
    // no percentage without the numbers it came from
    for (const line of output.split("\n").filter((one) => /[ \u202f]%/u.test(one) && /(attempt|lumen|stay)/i.test(one)))
      expect(line).toMatch(/\d+ in \d/);
  });

  // common practice, no source: what was found, the rule, what to do
  test("a month that has not begun is refused, and a file that is not there is named", async () => {
    const { exit, output } = await run(["pack", "year.csv", "--month", "2026-02"]);
    expect([exit, output]).toEqual([
      64,
      "The month 2026-02 begins after the day of the table, 2026-01-01. Ask for an earlier month.",
    ]);
    const missing = Object.assign(new Error("no such file"), { code: "ENOENT", path: "our lines.xlsx" });
    const gone = await runCommandLine(
      ["import", "our lines.xlsx"],
      commandDesk("", {
        pieces: () => {
          throw missing;
        },
      }),
    );
    expect(gone).toEqual({
      exit: 65,
      output: "Cannot read or write our lines.xlsx (ENOENT). Check the name and its folder.",
    });
  });

  test("a model says how well it foretells, and what patients share; a word it does not know is refused", async () => {
    const ask = ["cox", "year.csv", "--measure", "occlusion", "--factors", "lumens,ratio,position,age"];
    const { output } = await run([...ask, "--shared", "patient"]);
    expect(output).toContain("Foretold which of two lines has it first: 59.4 in 100, error 3.6; guessing is 50.");
    expect(output).toContain("Beyond this, 490 patients differ: variance 0.25, chance of so much 0.317.");
    const plain = await run(ask);
    const prior = await run([...ask, "--prior", "2"]);
    expect(plain.output).not.toContain("Beyond this");
    expect(prior.output).toContain("Cox with a log-F prior");
    const lumens = (text: string) => Number(/lumens, per lumen: ([\d.]+)/.exec(text)?.[1]);
    expect(lumens(prior.output)).toBeLessThanOrEqual(lumens(plain.output));
    expect((await run([...ask, "--shared", "ward"])).exit).toBe(64);
    expect((await run([...ask, "--prior", "0"])).exit).toBe(64);
  });

  test("wards are held against each other where they are asked for, and never with what leaves the service", async () => {
    const ask = ["rates", "year.csv", "--from", "2025-01-01", "--to", "2026-01-01", "--by", "ward"];
    const { output } = await run(ask);
    // R 4.2: pbinom(13, 32, share of ward B of the days, lower.tail = FALSE) = 0.0228
    expect(output).toContain("B stands above its limits: 14, 8.3 expected.");
    expect(output).toContain("Chance alone puts about 0.1 of 5 outside.");
    const { funnels, guards } = JSON.parse((await run([...ask, "--json"])).output);
    const wards = funnels.find(({ measure }: { measure: string }) => measure === "infection-clinical").wards;
    expect(wards.find(({ ward }: { ward: string }) => ward === "B").chance).toBeCloseTo(0.0228, 4);
    expect(guards).toBeUndefined();
    expect((await run([...ask, "--outside", "yes"])).output).not.toMatch(/no order of merit|expected/);
  });

  test("a model of a rate and the states of lines answer, or are refused with what to do", async () => {
    const model = ["rates", "year.csv", "--measure", "occlusion", "--factors"];
    expect((await run([...model, "lumens,age", "--shared", "ward"])).output).toContain("Beyond this, 5 wards differ");
    expect((await run([...model, "lumens", "--shared", "inserter"])).exit).toBe(64);
    expect((await run([...model, "luck"])).output).toContain('No factor "luck"');
    expect((await run([...model, "lumens", "--by", "ward"])).exit).toBe(64);
    expect((await run(["rates", "year.csv", "--shared", "ward"])).output).toContain("belong to a model");
    const states = await run(["survival", "year.csv", "--states", "blocked"]);
    expect(states.exit).toBe(3);
    expect(states.output).toContain("Write when it ran again");
    expect((await run(["survival", "year.csv", "--states", "out"])).exit).toBe(64);
    const clears = readFileSync("reference/independent/survival/line-states.csv", "utf8");
    const told = await run(["survival", "clears.csv", "--states", "blocked"], { "clears.csv": clears });
    // R's survfit of several states: 0.3975, 0.03, 0.1525, 0.42
    expect(told.output).toMatch(
      /By day 14: in, never blocked 40 \(.*blocked 3\.0 \(.*running again after a block 15 \(.*out 42 \(/,
    );
  });

  test.each(["0000-01", "1879-12", "2151-01", "9999-12", "2025-13", "2025-1", "-2025-01"])(
    "a pack of the month %s is refused with its rule",
    async (month) => {
      const { exit, output } = await run(["pack", "year.csv", "--month", month]);
      expect([exit, output]).toEqual([
        64,
        `--month is ${month}; the rule is YYYY-MM, from 1880 to 2150. Correct the month.`,
      ]);
    },
  );

  test("every command answers in words and in JSON", async () => {
    const calls: readonly (readonly string[])[] = [
      ["audit"],
      ["rates", "--by", "lumens", "--outside", "yes"],
      ["rates", "--by", "ward", "--drawn", "yes"],
      ["survival", "--measure", "occlusion", "--by", "lumens"],
      ["cox", "--measure", "occlusion", "--factors", "lumens,ratio"],
      ["cox", "--measure", "occlusion", "--factors", "lumens,ratio", "--shared", "patient"],
      ["cox", "--measure", "occlusion", "--factors", "lumens,ratio", "--prior", "2"],
      ["chart", "--target", "infection-clinical=1.5"],
      ["chart", "--from", "2025-10-01", "--measure", "occlusion", "--gaps", "power"],
      ["map", "--measure", "occlusion"],
      ["learning", "--inserter", "S1"],
      ["pack", "--target", "infection-clinical=1.5"],
      ["export"],
    ];
    for (const [name, ...more] of calls) {
      const words = await run([name as string, "year.csv", ...more]);
      expect([0, 2], `${name}: ${words.output.slice(0, 200)}`).toContain(words.exit);
      const json = await run([name as string, "year.csv", ...more, "--json"]);
      expect(() => JSON.parse(json.output) as unknown, name).not.toThrow();
      expect(words.output, name).not.toMatch(/undefined|NaN|\[object/);
    }
  });

  test("pool files are made, counted together, and refused when they differ", async () => {
    const make = async (service: string, more: readonly string[] = []) =>
      (await run(["pool", "year.csv", "--service", service, "--measure", "occlusion", "--by", "side", ...more])).output;
    const texts = { a: await make("a"), b: await make("b"), c: await make("c", ["--width", "7"]) };
    const both = await run(["pool", "a", "b"], texts);
    expect(both.exit).toBe(0);
    expect(both.output).toContain("2 services: a, b.");
    expect((await run(["pool", "a", "a"], texts)).output).toContain("stands twice");
    expect((await run(["pool", "a", "c"], texts)).output).toContain("differ in widthDays");
    expect(await run(["pool", "a"], { a: "{}" })).toMatchObject({ exit: 65 });
  });

  // slips of the hand: a year of four wrong digits, a target in another unit, a measure misspelt
  test("what would run for hours, or be passed over, is refused in words", async () => {
    const outputOf = async (call: readonly string[]) => {
      const { exit, output } = await run([call[0] as string, "year.csv", ...call.slice(1)]);
      return `${exit} ${output}`;
    };
    expect(await outputOf(["chart", "--base-from", "0001-01-01"])).toMatch(/^64 .*from 1880 to 2150/);
    expect(await outputOf(["audit", "--to", "9999-12-31"])).toMatch(/^64 .*from 1880 to 2150/);
    for (const target of ["occlusion=1e308", "occlusion=0", "oclusion=1", "__proto__=1", "occlusion=1=2", "placed=1"])
      expect(await outputOf(["chart", "--target", target]), target).toMatch(/^64 A target is a measure/);
    const pool = ["pool", "--measure", "occlusion", "--by", "side"];
    expect(await outputOf([...pool, "--service", "a", "--width", "1e-9"])).toMatch(
      /^64 .*no interval of a day or more/,
    );
    expect(await outputOf([...pool, "--service", "\u202Ea"])).toMatch(/^64 .*cannot be seen/);
  });

  test("the warning under figures that leave stands in their JSON as well, and in no other", async () => {
    for (const name of ["audit", "rates"]) {
      const ask = [name, "year.csv", "--by", "side"];
      const { output } = await run([...ask, "--outside", "yes"]);
      const { warning } = JSON.parse((await run([...ask, "--outside", "yes", "--json"])).output);
      expect(warning).toMatch(/The difference of two may tell what each withholds/);
      expect(output).toContain(warning);
      expect(JSON.parse((await run([...ask, "--json"])).output)).not.toHaveProperty("warning");
    }
  });

  // sysexits.h: EX_SOFTWARE is 70 (from memory)
  test("a fault of the program itself is one sentence without a value of the file, and its places on demand", async () => {
    const call = (showsStack: boolean, ...more: readonly string[]) =>
      runCommandLine(["audit", "year.csv", ...more], {
        read: () => year,
        write: () => undefined,
        now: () => "1 Jan 2026, 12:00",
        today: () => parseCivilDate("2026-01-01") as CivilDate,
        moment: () => {
          throw new TypeError("Anna Maurer\n    at bed 4 is no moment");
        },
        showsStack,
      });
    const plain = await call(false);
    expect(plain.exit).toBe(70);
    expect(plain.output).toMatch(
      /^A fault of the program itself \(TypeError\): run again with VEINWRIGHT_STACK=1[^\n]*\.$/,
    );
    const shown = await call(true);
    expect(shown.output).toMatch(/\n +at .*run\.ts/);
    const json = await call(true, "--json");
    expect(Object.keys(JSON.parse(json.output) as object)).toEqual(["stopped", "said"]);
    for (const { output } of [plain, shown, json]) expect(output).not.toMatch(/Maurer|bed 4/);
  });

  test("a chart over months without a line is refused in words", async () => {
    const texts = { "short.csv": "line_key,patient_key,placed_at,end_kind,end_at\nL,P,2025-06-05,removed,2025-06-05" };
    for (const more of [[], ["--gaps", "power"]])
      expect(
        await run(["chart", "short.csv", "--as-of", "2026-01-01", "--from", "2025-06-10", ...more], texts),
      ).toMatchObject({
        exit: 3,
        output: expect.stringMatching(/both must be above zero.*Name another --from/) as string,
      });
  });

  test("a split of hundreds of values is not drawn together and does not leave", async () => {
    const wards = Array.from({ length: 301 }, (_, at) => `L${at},P${at},2025-03-01,removed,2025-03-09,W${at}`);
    const texts = { "fine.csv": ["line_key,patient_key,placed_at,end_kind,end_at,ward", ...wards].join("\n") };
    for (const word of ["--outside", "--drawn"])
      expect(await run(["rates", "fine.csv", "--by", "ward", word, "yes"], texts)).toMatchObject({
        exit: 3,
        output: expect.stringContaining("has 301 values") as string,
      });
  });

  test("every fault of a table is listed, exit 65; a strange word is told, exit 64", async () => {
    const bad = "line_key,patient_key,placed_at,lumens\nA,p,2025-13-01,9\n,p,2025-03-01,1";
    const { exit, output } = await run(["audit", "bad.csv"], { "bad.csv": bad });
    expect(exit).toBe(65);
    expect(output).toContain("3 faults in the line table");
    expect((await run(["audit", "year.csv", "--by", "colour"])).exit).toBe(64);
    expect((await run(["audit", "year.csv", "--from", "soon"])).exit).toBe(64);
    expect((await run(["audit", "year.csv", "--from"])).output).toContain("Give a value after --from");
    expect((await run(["survival", "year.csv", "--measure", "rain"])).exit).toBe(64);
    expect((await run(["plan", "year.csv", "--from", "2025-01-01"])).output).toContain('"plan" has no --from');
  });
});

describe("count from the record itself", () => {
  const folder = mkdtempSync(join(tmpdir(), "veinwright-count-"));
  const file = join(folder, "record.sqlite");
  const at = parseInstant("2026-11-26T11:02+00:00") as Instant;
  const fromRecord = (words: readonly string[]) =>
    runCommandLine(words, {
      read: () => {
        throw new Error("no file is read");
      },
      write: () => undefined,
      now: () => "26 Nov 2026, 11:02",
      today: () => parseCivilDate("2026-11-26") as CivilDate,
      moment: () => at,
    });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  beforeAll(async () => {
    const store = await openStore(file);
    for (const event of practiceRecord("2026-11-26" as CivilDate, "+00:00")) {
      const { length } = await store.readSubject(event.subject);
      await store.append({ subject: event.subject, expectedVersion: length, events: [event] });
    }
    await store.close();
  });

  test("audit, rates and pack read the dwell table of a store", async () => {
    const period = ["--from", "2026-01-01", "--to", "2026-11-27"];
    const { exit, output } = await fromRecord(["audit", "--store", file, ...period]);
    expect([0, 2]).toContain(exit);
    // the page counts the same invented lines (test/browser/count-page.test.ts)
    expect(output).toMatch(/of 12 lines used/);
    const again = await fromRecord(["audit", "--store", file, ...period]);
    expect(again.output).toBe(output);
    for (const name of ["rates", "pack"]) {
      const answer = await fromRecord([name, "--store", file, "--json"]);
      expect([0, 2], answer.output.slice(0, 200)).toContain(answer.exit);
      expect(() => JSON.parse(answer.output) as unknown).not.toThrow();
    }
  });

  test("a ward's counted month stands in the answer of a store, and the record is whole", async () => {
    const store = await openStore(file);
    const told = (value: string | number) => ({ value, from: "told" });
    const subject: Subject = "service:here";
    const { length } = await store.readSubject(subject);
    const month = inventedEntry({
      id: "ward-1",
      subject,
      type: "WardMonthCounted",
      at,
      author: WARD_NURSE,
      seen: length,
      data: {
        ward: told("Ward 7B"),
        month: told("2026-10"),
        linesCounted: told("lines of this service"),
        patientDays: told(640),
        dailyLineDays: told(128),
      },
    });
    const taken = await store.append({ subject, expectedVersion: length, events: [month] });
    expect(taken.kind).toBe("accepted");
    await store.close();
    for (const name of ["audit", "rates"]) {
      const { output } = await fromRecord([name, "--store", file, "--from", "2026-01-01", "--to", "2026-11-27"]);
      expect(output).toContain("Ward 7B: device utilisation 0.20, 128 of 640 patient-days in 1 month.");
      expect(output).toContain("counted daily by hand");
      expect(output).toMatch(/By the record \d+, \d+\.\d\u202f% fewer: beyond the limit you set\./);
    }
    const json = await fromRecord(["audit", "--store", file, "--from", "2026-01-01", "--to", "2026-11-27", "--json"]);
    expect(JSON.parse(json.output)).toMatchObject({ wards: { wards: [{ ward: "Ward 7B", utilisation: 0.2 }] } });
    const whole = await fromRecord(["verify", "--store", file]);
    expect([whole.exit, whole.output]).toEqual([0, expect.stringContaining("Every link holds: 78 events")]);
  });

  test("a store that is not there, a file beside a store, and a day in the past are refused", async () => {
    const nowhere = await fromRecord(["audit", "--store", join(folder, "nothing.sqlite")]);
    expect(nowhere.exit).toBe(65);
    expect(nowhere.output).toContain("There is no record at");
    expect((await fromRecord(["audit", "year.csv", "--store", file])).exit).toBe(64);
    expect((await fromRecord(["audit", "--store", file, "--as-of", "2026-01-01"])).exit).toBe(64);
    expect((await fromRecord(["audit"])).exit).toBe(64);
    expect((await fromRecord(["survival", "--store", file, "--measure", "occlusion"])).exit).toBe(64);
  });
});
