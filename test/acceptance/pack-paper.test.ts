import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { flat, pagesOf, ran, runningInto, smallest } from "./pdf-words.ts";

// Tagged PDF as ISO 14289-1 (PDF/UA-1) asks; read back by poppler, which did not write it. The numbers are R's.
const folder = mkdtempSync(join(tmpdir(), "veinwright-pack-"));
const year = readFileSync("reference/independent/r/count-year.csv", "utf8");
const ACTION = "Smaller lines first on ward D;R. Voss;2025-12-15;thrombosis;not done";

async function packPdf(name: string, text: string, more: readonly string[] = [], lots?: string) {
  const file = join(folder, `${name}.pdf`);
  const { exit, output } = await runCommandLine(
    ["pack", "lines.csv", ...(lots ? ["lots.csv"] : []), "--month", "2025-12", ...more, "--pdf", file],
    {
      read: (asked) => (asked === "lots.csv" ? (lots ?? "") : text),
      write: writeFileSync,
      now: () => "26 November 2026",
      today: () => "2026-01-20" as CivilDate,
      moment: () => "2026-01-20T09:00+01:00" as Instant,
    },
  );
  return { exit, output, file };
}
const pages = (file: string): number => Number(/Pages:\s+(\d+)/.exec(ran("pdfinfo", [file]).toString())?.[1]);
const page = (file: string, at: number): string =>
  flat(ran("pdftotext", ["-layout", "-f", String(at), "-l", String(at), file, "-"]).toString());

const kept = () =>
  JSON.parse(readFileSync("reference/independent/r/pack-golden.json", "utf8")) as Readonly<Record<string, number>>;

/** The year with everything long: wards, keys, lots and the action. */
function crowdedBeyond(): { readonly text: string; readonly lots: string; readonly action: string } {
  const [head = "", ...rows] = year.trim().split("\n");
  const names = head.split(",");
  const at = (name: string) => names.indexOf(name);
  const long = (start: string) => (start + "0123456789ABCDEF".repeat(5)).slice(0, 80);
  const crowded = rows.map((row, number) => {
    const cells = row.split(",");
    cells[0] = long(`K${number}-`);
    cells[at("ward")] = `Ward ${number % 40} behind the new building on the third floor of the east wing`.padEnd(
      80,
      "x",
    );
    if (number % 5 === 0) {
      cells[at("end_kind")] = "unknown";
      cells[at("end_at")] = cells[at("placed_at")] as string;
      cells[at("end_reason")] = "";
      cells[at("events")] = "";
    }
    return [...cells, long(`LOT${number % 30}-`), "dressing", "no", "arm-barred", "20"].join(",");
  });
  const lots = Array.from({ length: 30 }, (_, lot) =>
    [long(`LOT${lot}-`), `2026-01-${String(lot + 1).padStart(2, "0")}`, 500, 0, lot % 2 ? "yes" : "no"].join(","),
  );
  const words = "Flush every line after every sample and write it down at once, day and night, ".repeat(3);
  return {
    text: [`${head},lot_key,overdue_care,owned,overrides,egfr_ml_min_173`, ...crowded].join("\n"),
    lots: `${["lot_key,expires_on,received,discarded,recalled", ...lots].join("\n")}\n`,
    action: `${words}until the next meeting;R. Voss of the team for lines on the third floor;2025-12-15;thrombosis;not done`,
  };
}

describe("the monthly pack as PDF", () => {
  let file = "";
  beforeAll(async () => {
    ({ file } = await packPdf("year", year, ["--action", ACTION]));
  });

  test("is four tagged pages and the sheet of the two cases, for screen readers", () => {
    const raw = readFileSync(file).toString("latin1");
    expect(pages(file)).toBe(5);
    expect(raw).toContain("/StructTreeRoot");
    expect(raw).toMatch(/pdfuaid:part/);
    expect(ran("pdfinfo", [file]).toString()).toMatch(/Tagged:\s+yes/);
  });

  test("last month's action stands before every figure, and says whether it moved anything", () => {
    const first = page(file, 1);
    expect(first.indexOf("Smaller lines first on ward D.")).toBeGreaterThan(0);
    expect(first.indexOf("Smaller lines first on ward D.")).toBeLessThan(first.indexOf("Lines placed"));
    expect(first).toContain("R. Voss, due Mon 15 Dec 2025: not done.");
    expect(first).toContain("cannot tell it from the twelve months before");
  });

  test("the year by lumens is as R counts it", () => {
    const golden = JSON.parse(readFileSync("reference/independent/r/count-year-golden.json", "utf8")) as Readonly<
      Record<string, number>
    >;
    const third = page(file, 3);
    let checked = 0;
    for (const lumens of [1, 2, 3]) {
      const of = (what: string) => golden[`lumens ${lumens} ${what}`];
      if (of("occlusion.events") === undefined) continue;
      const days = Math.round(of("occlusion.days") as number).toLocaleString("en-GB");
      expect(third).toContain(`${of("occlusion.events")} in ${days}`);
      expect(third).toContain(`${of("first-attempt.numerator")} of ${of("first-attempt.denominator")}`);
      checked += 1;
    }
    expect(checked).toBeGreaterThan(1);
  });

  test("every page says what it holds, its number and its copy", () => {
    for (const [at, title] of ["The month", "Time", "Where and with what", "People and things to do"].entries()) {
      expect(page(file, at + 1)).toContain(title);
      expect(page(file, at + 1)).toContain(`page ${at + 1} of 4`);
    }
    expect(page(file, 4)).toContain("This month's action");
  });

  // common practice, no source: what is smaller than 7 pt is not read in a meeting
  test("prints no word smaller than 7 pt, on the plates neither", () => {
    expect(page(file, 2)).toMatch(/events .*days/);
    expect(smallest(file)).toBeGreaterThan(6.99);
  });

  test("is grey alone", () => {
    const data = ran("pdftoppm", ["-r", "60", file]);
    let at = 0;
    let seen = 0;
    while (at < data.length) {
      const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(data.subarray(at, at + 40).toString("latin1"));
      if (!head) throw new Error("pdftoppm gave no picture");
      const from = at + head[0].length;
      const size = Number(head[1]) * Number(head[2]) * 3;
      for (let i = from; i < from + size; i += 3)
        if (data[i] !== data[i + 1] || data[i] !== data[i + 2]) throw new Error(`colour on page ${seen + 1}`);
      at = from + size;
      seen += 1;
    }
    expect(seen).toBe(5);
  });

  test("stays four pages when every list is long and there are many wards", async () => {
    const [head = "", ...rows] = year.trim().split("\n");
    const names = head.split(",");
    const [ward, kind, endAt, why] = ["ward", "end_kind", "end_at", "end_reason"].map((name) => names.indexOf(name));
    const crowded = rows.map((row, at) => {
      const cells = row.split(",");
      cells[ward as number] = `Ward ${at % 31}`;
      if (at % 5 === 0) {
        cells[kind as number] = "unknown";
        cells[endAt as number] = cells[names.indexOf("placed_at")] as string;
        cells[why as number] = "";
        cells[names.indexOf("events")] = "";
      }
      return [...cells, "dressing", "no", "arm-barred", "20"].join(",");
    });
    const text = [`${head},overdue_care,owned,overrides,egfr_ml_min_173`, ...crowded].join("\n");
    const { file: big, output } = await packPdf("crowded", text);
    expect(output).toContain("Written to");
    expect(pages(big)).toBe(5);
    expect(smallest(big)).toBeGreaterThan(6.99);
    expect(page(big, 4)).toContain("more: ask the Count page");
  });

  // common practice, no source: a word over another is read as neither
  test.each(["A4", "letter"])(
    "forty wards, thirty lots and names of eighty signs run into nothing on %s, and what is left out is told",
    async (paper) => {
      const { text, lots, action } = crowdedBeyond();
      const { file: big, output } = await packPdf(
        `beyond-${paper}`,
        text,
        ["--paper", paper, "--action", action],
        lots,
      );
      expect(output).toContain("Written to");
      expect(pages(big)).toBe(5);
      // US Letter is 8.5 by 11 inches, A4 210 by 297 mm (ISO 216)
      const size = paper === "letter" ? [612, 792] : [595.28, 841.89];
      for (const { width, height } of pagesOf(big, 5)) {
        expect(width).toBeCloseTo(size[0] as number, 0);
        expect(height).toBeCloseTo(size[1] as number, 0);
      }
      expect(smallest(big)).toBeGreaterThan(6.99);
      expect(runningInto(big)).toEqual([]);
      expect(page(big, 1)).toContain("until the next meeting");
      expect(page(big, 3)).toMatch(
        /and \d+ wards more with fewer days, (none|\d+) of them outside: ask the Count page/,
      );
      expect(page(big, 4)).toMatch(/Lots called back, lines to reach: 15/);
      expect(page(big, 4).match(/and \d+ more: ask the Count page or the command/g)?.length).toBeGreaterThan(4);
    },
  );

  test("a paper that is none is told with its rule", async () => {
    const { exit, output } = await packPdf("foolscap", year, ["--paper", "foolscap"]);
    expect(exit).toBe(64);
    expect(output).toContain("the rule is A4 or letter");
  });

  test("each part of the year has its own exact limits, as R has them", async () => {
    const golden = kept();
    const imported = readFileSync("reference/independent/r/pack-year.csv", "utf8");
    const { file: own } = await packPdf("limits", imported, ["--as-of", "2026-01-15"]);
    const third = page(own, 3);
    const near = (value: number) => value.toFixed(value < 1 ? 2 : value < 10 ? 1 : 0);
    let checked = 0;
    for (const [by, value] of [
      ["size", "4 Fr"],
      ["vein", "basilic"],
      ["side", "right arm"],
      ["ward", "Birch"],
    ]) {
      const of = (measure: string, what: string) =>
        golden[`pack-year|year ${by} ${value}|${measure}|${what}`] as number;
      for (const measure of ["infection-clinical", "thrombosis", "occlusion"]) {
        const days = Math.round(of(measure, "denominator")).toLocaleString("en-GB");
        const limits = `${near(of(measure, "lower"))} to ${near(of(measure, "upper"))}`;
        expect(third).toContain(`${of(measure, "numerator")} in ${days}; ${limits}`);
        checked += 1;
      }
      if (by === "ward") continue;
      const percent = (what: string) => (100 * of("first-attempt", what)).toFixed(0);
      expect(third).toContain(
        `${of("first-attempt", "numerator")} of ${of("first-attempt", "denominator")}; ${percent("lower")} to ${percent("upper")} %`,
      );
    }
    expect(checked).toBe(12);
    const ward = (what: string) => (golden[`pack-year|funnel Birch|occlusion|${what}`] as number).toFixed(1);
    expect(third).toContain(`${ward("expected")} expected; chance ${ward("lower|0.025")} to ${ward("upper|0.025")}`);
    expect(third).toContain("None is drawn towards the others.");
  });

  test("the second page of a first year says what is counted, what a base needs and how soon a doubling would show", async () => {
    const golden = kept();
    const imported = readFileSync("reference/independent/r/pack-year.csv", "utf8");
    const { file: own } = await packPdf("first", imported, ["--as-of", "2026-01-15"]);
    const second = page(own, 2);
    const of = (what: string) => golden[`pack-year|beginning|thrombosis|${what}`] as number;
    expect(second).toContain("Too early for a chart: no line lies before these twelve months.");
    expect(second).toContain(
      `So far ${of("numerator")} in 8,113 exact line-days: ${of("value").toFixed(2)} (${of("lower").toFixed(2)} to ${of("upper").toFixed(2)}) per 1,000`,
    );
    expect(second).toContain(`about ${Math.round(of("months to show"))} months to show`);
    expect(second).toContain(`${of("expected a month").toFixed(1)} expected a month; ${of("noticed")} in one month`);
    expect(second).toContain("A base needs 20 (common practice, your policy): there are enough.");
    expect(smallest(own)).toBeGreaterThan(6.99);
  });

  test("lots of a file beside the lines stand on page 4 with whom to reach; without it the page says so", async () => {
    const imported = readFileSync("reference/independent/r/pack-year.csv", "utf8");
    const golden = kept();
    const lots = readFileSync("reference/independent/r/pack-year-lots.csv", "utf8");
    const { file: withLots, exit } = await packPdf("lots", imported, ["--as-of", "2026-01-15"], lots);
    expect(exit).toBe(0);
    const fourth = page(withLots, 4);
    // as pack.R counts them
    for (const lot of ["L0d3e162f6ff3b294", "L53e7708b0f0edf9d", "L8ef5ea334ad22abc"])
      expect(fourth).toContain(`${lot}: ${golden[`pack-year|lot|${lot}|end not known`]} end not known`);
    expect(fourth).toContain(`Lots near their date: ${golden["pack-year|list|lots near their date"]}`);
    expect(page(file, 4)).toContain("Not in a line table.");
  });

  test("the fifth sheet tells the two cases that R chose, by days, without a key, ward or date", async () => {
    const imported = readFileSync("reference/independent/r/pack-year.csv", "utf8");
    const golden = kept();
    const { file: cases } = await packPdf("cases", imported, ["--as-of", "2026-01-15"]);
    const fifth = page(cases, 5);
    for (const name of ["worst", "well"])
      expect(fifth).toContain(`Day ${golden[`pack-year|case|${name}|days`]} Taken out`);
    const wards = new Set(
      imported
        .split("\n")
        .slice(1)
        .map((row) => row.split(",")[17] ?? ""),
    );
    for (const ward of wards) if (ward.length > 3) expect(fifth).not.toContain(ward);
    expect(fifth).not.toMatch(/\b20\d\d\b|L[0-9a-f]{16}/);
  });

  test("a table of lots with faults is told with its place, exit 65, and three files are one too many", async () => {
    const { exit, output } = await packPdf("faulty", year, [], "lot_key,received,recalled\nA,1,perhaps\n");
    expect(exit).toBe(65);
    expect(output).toContain("row 2, recalled");
  });

  test("an action that cannot be read is told with its rule", async () => {
    const { exit, output } = await packPdf("wrong", year, ["--action", "do better"]);
    expect(exit).toBe(64);
    expect(output).toContain("WHAT;OWNER;YYYY-MM-DD;MEASURE;done");
  });
});
