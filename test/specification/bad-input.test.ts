import { describe, expect, test } from "vitest";
import { readCase, readCaseText, readNumber } from "../../src/contract/index.ts";
import { sayFault } from "../../src/language/index.ts";
import { demoShelf, practicePatients } from "../../src/practice/index.ts";

const whole = () => structuredClone(practicePatients[0]?.planCase) as unknown as Record<string, never>;
const faultsOf = (json: unknown) => {
  const reading = readCase(json, demoShelf);
  return reading.kind === "faults" ? reading.faults : [];
};

describe("numbers as people type them", () => {
  test("a decimal comma and a decimal point are the same number", () => {
    expect(readNumber("3,7")).toEqual({ kind: "number", value: 3.7 });
    expect(readNumber(" 3.7 ")).toEqual({ kind: "number", value: 3.7 });
  });

  test("thousands separators are refused, not guessed at", () => {
    for (const text of ["1.234,5", "1,234.5", "1 234", "1.234"])
      expect(readNumber(text).kind, text).toBe("thousands separator");
  });

  test("empty, not known and nonsense are three different things", () => {
    expect(readNumber("").kind).toBe("empty");
    expect(readNumber("n/k").kind).toBe("not known");
    expect(readNumber("about 4").kind).toBe("not a number");
  });
});

describe("a file with faults", () => {
  test("with ten faults reports ten", () => {
    const faults = faultsOf({
      patient: {
        name: "A",
        identifier: "1",
        age: { value: 50, unit: "fortnights" },
        weightKg: -3,
        heightCm: "1.234,5",
        dominantArm: "middle",
        shoeSize: 42,
      },
      need: { lumens: 1.5, flowMlPerHour: -1, blood: "perhaps" },
      arms: { right: { armLengthCm: 500, bars: [], surveys: [{ vein: "jugular", stations: [] }] } },
    });
    expect(faults).toHaveLength(10);
    for (const fault of faults) expect(sayFault(fault).length).toBeGreaterThan(10);
  });

  test("a lost point and a height in metres are asked about with the other reading, and neither is taken", () => {
    const typed = whole() as unknown as {
      patient: Record<string, number>;
      arms: { right: { surveys: { stations: Record<string, number>[] }[] } };
    };
    typed.patient["heightCm"] = 1.75;
    const [station] = typed.arms.right.surveys[0]?.stations ?? [];
    if (!station) throw new Error("the plain patient has a reading");
    station["diameterMm"] = 43;
    const said = faultsOf(typed).map(sayFault);
    expect(said).toEqual([
      "patient.heightCm is 1.75; the rule is at least 20. Is 175 meant?",
      "arms.right.surveys.0.stations.0.diameterMm is 43; the rule is at most 20. Is 4.3 meant?",
    ]);
  });

  test("a gauge typed as a French size is named for what it is", () => {
    const shelf = [{ id: "x", name: "x", nominalFrench: 18, lumens: 1, lengthCm: 50 }];
    expect(faultsOf({ ...whole(), shelf }).map(({ code }) => code)).toEqual(["gauge-for-french"]);
  });

  test("weight in two units is one fault, and pounds are echoed in kilograms", () => {
    const both = whole() as unknown as { patient: Record<string, number> };
    both.patient["weightLb"] = 150;
    expect(faultsOf(both).map(({ code }) => code)).toEqual(["both-units"]);
    delete both.patient["weightKg"];
    const reading = readCase(both, demoShelf);
    expect(reading.kind === "case" && reading.echoes.map(({ code }) => code)).toEqual(["weight-converted"]);
  });

  test("text that is no JSON, a prototype key and a huge file are answered in words", () => {
    expect(readCaseText("{", demoShelf)).toMatchObject({ kind: "faults", faults: [{ code: "not-json" }] });
    expect(readCaseText("x".repeat(1_000_001), demoShelf)).toMatchObject({
      kind: "faults",
      faults: [{ code: "too-large" }],
    });
    const hostile = JSON.parse('{"__proto__": {"polluted": true}, "patient": {}, "need": {}, "arms": {}}') as unknown;
    readCase(hostile, demoShelf);
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
  });
});
