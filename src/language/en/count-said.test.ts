import { describe, expect, test } from "vitest";
import { sayIssue, sayMeasure } from "./count.ts";
import { countPlateWords } from "./count-plate.ts";
import { glanceLines } from "./glance.ts";
import { sayNoColumn, sayWards } from "./spreadsheet.ts";

// Words for whoever reads a count aloud. What each sentence must hold: common practice, no source.

describe("what a count says", () => {
  test("lines in and out add up to those placed, the handed on among them", () => {
    const flow = { placed: 304, removed: 237, handedOn: 17, inPlace: 19, lost: 31 };
    const before = { from: "2024-11-01", to: "2025-11-01", fromOffset: 0, toOffset: 0 } as never;
    const [said] = glanceLines({ before, flow, rates: [], neverWritten: [], toMend: [] });
    expect(said).toBe("304 lines placed, 237 out, 17 handed on, 19 still in. Nobody knows where 31 ended.");
    const numbers = [...(said ?? "").matchAll(/\d+/g)].map(Number);
    expect(numbers.slice(1).reduce((sum, one) => sum + one, 0)).toBe(numbers[0]);
  });
  test("a rule of the record is said in words, its columns too, its code last", () => {
    const about = ["vein_diameter_mm 36 of 327", "attempts 44 of 327"];
    const issue = sayIssue({ code: "C4", severity: "warn", lines: ["a", "b"], about } as never);
    expect(issue).toContain("2 lines (vein diameter 36 of 327, attempts 44 of 327): A value missing too often");
    expect(issue).not.toContain("_");
    expect(issue.endsWith("Rule C4.")).toBe(true);
  });
  test("a map of no line shows nothing, least of all that places do not differ", () => {
    const map = { title: "Blocked lines", clock: "exact line-days", flat: true, given: 304, cells: [] };
    expect(countPlateWords.map({ ...map, used: 0 }).sentence).toBe(
      "Blocked lines along the arm: the place is written for none of 304 lines.",
    );
    expect(countPlateWords.map({ ...map, used: 300 }).sentence).toContain("No difference is shown.");
  });
  test("spellings of one ward stand side by side, and it is said that each counts alone", () => {
    const wards = new Map([
      ["Ward 4", 20],
      ["ITU", 9],
      ["W4", 17],
      ["Ward 12", 3],
      ["ward 4", 13],
    ]);
    expect(sayWards(wards)[0]).toBe("5 wards as they will be counted: ITU 9, W4 17, Ward 4 20, ward 4 13, Ward 12 3.");
    expect(sayWards(wards)[1]).toContain("a ward of its own");
    expect(sayWards(new Map([["Ward 4", 20]]))).toEqual([]);
  });
  // eGFR and catheter-to-vein ratio are the words of the trade (Sharp R and others 2015, Int J Nurs Stud 52:677)
  test("measures carry the words of the trade under the ids they have", () => {
    const said = ["ratio-within", "low-filtration", "overrides"].map(sayMeasure);
    expect(said[0]).toMatch(/^Catheter-to-vein ratio/);
    expect(said[1]).toContain("eGFR");
    expect(said[2]).toContain("overridden");
  });
  test("an event without a column is named before a year is counted without it", () => {
    expect(sayNoColumn(["infectionOn", "occlusionOn"])).toBe(
      "No column for: date of infection, date of blockage. Count can say nothing of these.",
    );
  });
});
