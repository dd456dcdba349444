import { describe, expect, test } from "vitest";
import { besides, readMeasures, readYardsticks, type Measure, type Yardstick } from "../../src/audit/index.ts";
import { elsewhereLine, notYours, sayApart, sayYardstick, sayYardstickFault } from "../../src/language/index.ts";
import { yardstickFiles } from "../../src/measure/index.ts";

// Rates of different denominators are never compared. Couk J and others 2019, Infect Control Hosp Epidemiol 40:1019:
// the same wards have 1.30 per 1,000 with several lines of a patient counted as one, and 1.22 with each line counted.

const reading = readMeasures();
if (reading.kind === "faults") throw new Error("the measures have faults");
const { measures } = reading;
const found = readYardsticks(measures);
if (found.kind === "faults") throw new Error(found.faults.map(sayYardstickFault).join(" "));
const { yardsticks } = found;
const measureOf = (id: string): Measure => measures.find((one) => one.id === id) as Measure;
const rowOf = (id: string): Yardstick => yardsticks.find((one) => one.id === id) as Yardstick;
const told = (rows: readonly Yardstick[], id: string): string => {
  const { alike, apart } = besides(rows, measureOf(id));
  return [...alike.map(sayYardstick), ...apart.map(sayApart)].join("\n");
};
const words = (sentence: string): number => sentence.split(/\s+/).filter((word) => /[\p{L}\d]/u.test(word)).length;

describe("published figures as context", () => {
  test("every figure has its people, its clock, its source and what is known of both", () => {
    expect(yardsticks.length).toBeGreaterThanOrEqual(20);
    for (const { population, source, section, clock } of yardsticks)
      expect([population, source, section, clock].every((one) => one.length > 3)).toBe(true);
  });

  test.each(yardsticks.map(({ id }) => id))("%s moves what is told of its measure", (id) => {
    const { measure } = rowOf(id);
    const without = yardsticks.filter((one) => one.id !== id);
    expect(told(yardsticks, measure)).not.toBe(told(without, measure));
    const onOtherClock = yardsticks.map((one) =>
      one.id === id ? { ...one, differs: [...one.differs, "counted by somebody else"] } : one,
    );
    expect(told(onOtherClock, measure)).not.toBe(told(yardsticks, measure));
  });

  test("a figure of another clock is never put beside, and its number is not shown", () => {
    for (const measure of measures)
      for (const { clock, denominator, differs } of besides(yardsticks, measure).alike)
        expect({ clock, denominator, differs }).toEqual({
          clock: measure.clock,
          denominator: measure.denominator,
          differs: [],
        });
    const surveillance = besides(yardsticks, measureOf("infection-surveillance"));
    expect(surveillance.alike).toEqual([]);
    const wards = surveillance.apart.filter(({ yardstick }) => yardstick.population.startsWith("adult wards"));
    expect(wards).toHaveLength(2);
    for (const one of wards) {
      expect(sayApart(one)).toMatch(/Counted in (line|patient)-days at census/);
      expect(sayApart(one)).not.toMatch(/1\.22|1\.3/);
    }
  });

  test.each(["line-days by date difference", "patient-days at census", "not printed"] as const)(
    "a figure moved to %s leaves the side of the service's own",
    (clock) => {
      const moved = yardsticks.map((one) => (one.id === "occlusion-mixed" ? { ...one, clock } : one));
      expect(besides(moved, measureOf("occlusion")).alike).toEqual([]);
      expect(told(moved, "occlusion")).not.toContain("3.3 per");
    },
  );

  // Evans RS and others 2010, Chest 138:803: 60 clots in 2,014 lines, 15,115 days.
  test("a figure is said with its counts, its people and that their lines are not ours, without a verdict", () => {
    const said = sayYardstick(rowOf("thrombosis-trauma-centre"));
    expect(said).toBe(
      "Elsewhere: 3.97 per 1,000 exact line-days, 60 in 15,115. Adults of one trauma centre, 7.5 days in place on average, United States; 2,014 lines. Counted: clots with signs, seen by ultrasound.",
    );
    expect(notYours).toBe("Their lines are not yours.");
    for (const one of yardsticks)
      expect(sayYardstick(one)).not.toMatch(/target|better|worse|above|below|goal|should|benchmark/i);
  });

  // Maki DG and others 2006, Mayo Clin Proc 81:1159, from memory for inpatients: 2.1 (1.0 to 3.2), outpatients 1.0 (0.8 to 1.2).
  test("an interval stands only where it was printed, with the digits it was printed with", () => {
    expect(sayYardstick(rowOf("infection-outpatients"))).toContain("1.0 (0.8 to 1.2) per 1,000");
    expect(rowOf("infection-inpatients").howKnown).toBe("from memory");
    expect(sayYardstick(rowOf("short-stay-registry"))).toContain("25.3 % of lines removed, 3,902 in 15,397");
    expect(yardsticks.filter(({ interval, valueFrom }) => interval && valueFrom === "worked out")).toEqual([]);
    expect(elsewhereLine(measureOf("thrombosis"), besides(yardsticks, measureOf("thrombosis")))).toBe(
      "Clots seen, elsewhere: 3.97 (trauma centre), 0.26 (solid cancer at home) per 1,000 exact line-days.",
    );
  });

  test("no sentence of a figure is longer than fifteen words", () => {
    for (const one of yardsticks)
      for (const sentence of sayYardstick(one).split(". "))
        expect([sentence, words(sentence) <= 15]).toEqual([sentence, true]);
  });
});

describe("a file of published figures", () => {
  const row = rowOf("all-solid-cancer");
  const faultsOf = (changed: object): readonly string[] => {
    const answer = readYardsticks(measures, [[{ ...row, ...changed }]]);
    return answer.kind === "faults" ? answer.faults.map(({ field }) => field) : [];
  };

  test.each([
    ["a value that its own counts deny", { counted: 60, over: 49718, value: 0.84 }, ["value"]],
    ["a value outside its interval", { value: 1.2 }, ["interval"]],
    ["a share above one", { unit: "share", value: 1.5, denominator: "lines placed", clock: "none" }, ["value"]],
    ["a rate over lines", { denominator: "lines placed" }, ["unit", "clock"]],
    ["a measure there is not", { measure: "luck" }, ["measure"]],
    ["a clock there is not", { clock: "fortnights" }, ["clock"]],
    ["nobody's population and no source", { population: "", source: " " }, ["population", "source"]],
    ["differences that are no list", { differs: "many" }, ["differs"]],
    ["half a line", { lines: 2.5 }, ["lines"]],
    ["no date of review", { reviewOn: "soon" }, ["reviewOn"]],
    ["a colour", { colour: "green" }, ["colour"]],
  ])("%s is told and nothing is taken", (_, changed, fields) => {
    expect(faultsOf(changed)).toEqual(fields);
  });

  test("every fault of every row is told at once, and an id stands once", () => {
    const answer = readYardsticks(measures, [[row, { ...row, value: 9, lines: -1 }], "no list"]);
    expect(answer.kind === "faults" ? answer.faults.map(({ field }) => field) : []).toEqual([
      "id",
      "lines",
      "interval",
      "",
    ]);
    expect(sayYardstickFault({ yardstick: "x", field: "value", found: "9", rule: "less" })).toContain(
      "Correct the file.",
    );
    expect(yardstickFiles.flat()).toHaveLength(yardsticks.length);
  });
});
