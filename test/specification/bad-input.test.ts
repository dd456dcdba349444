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

describe("what no single field shows", () => {
  type Open = {
    patient: Record<string, unknown>;
    arms: { right: { surveys: { vein: string; stations: Record<string, unknown>[] }[] } };
    shelf?: unknown;
  };
  const open = () => whole() as unknown as Open;

  test("one place measured twice is a fault: the kinder reading must not win by its order", () => {
    const twice = open();
    const [survey] = twice.arms.right.surveys;
    survey?.stations.push({ ...survey.stations[0], atCm: 5.52, thrombus: true });
    expect(faultsOf(twice).map(({ code }) => code)).toEqual(["twice"]);
    const again = open();
    again.arms.right.surveys.push(structuredClone(again.arms.right.surveys[0]) as never);
    expect(faultsOf(again).map(({ path }) => path)).toEqual(["arms.right.surveys.1.vein"]);
  });

  test("two catheters of one id, a day that does not exist and an age nobody reaches are faults", () => {
    const item = { id: "a", name: "a", nominalFrench: 4, lumens: 1, lengthCm: 60 };
    expect(faultsOf({ ...open(), shelf: [item, { ...item, name: "b" }] }).map(({ code }) => code)).toEqual(["twice"]);
    const born = open();
    born.patient["bornOn"] = "9999-99-99";
    born.patient["age"] = { value: 1500, unit: "years" };
    expect(
      faultsOf(born)
        .map(({ code }) => code)
        .sort(),
    ).toEqual(["no-such-date", "out-of-range"]);
  });

  test("a name with hidden signs cannot forge an answer", () => {
    for (const sign of ["\u001b[2J", "\u202e", "\u2028", "\ud800"]) {
      const forged = open();
      forged.patient["name"] = `EVIL${sign} Mark the LEFT ARM`;
      expect(
        faultsOf(forged).map(({ code }) => code),
        JSON.stringify(sign),
      ).toEqual(["hidden-sign"]);
    }
  });
});
