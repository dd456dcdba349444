import { describe, expect, test } from "vitest";
import { defaultPolicy, planPolicyFrom } from "../../policy/index.ts";
import type { Station, Vein } from "../arm/index.ts";
import type { StockCatheter } from "../catheter/index.ts";
import { missing } from "../missing/index.ts";
import { centimetre, french, kilogram, millilitrePerHour, millilitrePerSecond, millimetre } from "../quantity/index.ts";
import { planLine, type ArmInput, type PlanInput } from "./index.ts";
import { station } from "../../../test/invented-station.ts";

const policy = planPolicyFrom(defaultPolicy.table);
const notMeasured = missing("not measured");

const catheter = (size: number, lumens: number, more: Partial<StockCatheter> = {}): StockCatheter => ({
  id: `${size}-${lumens}`,
  name: `${size} Fr, ${lumens} lumen`,
  nominalFrench: french(size),
  outsideDiameterMm: millimetre(size / 3),
  lumens,
  lengthCm: centimetre(55),
  lumenVolumesMl: notMeasured,
  flowLabelMlPerHour: millilitrePerHour(1000),
  bloodByLabel: true,
  contrastLabelMlPerSecond: millilitrePerSecond(0),
  material: "polyurethane",
  ...more,
});

const noLengths = {
  tapeFromCm: notMeasured,
  surfaceTapeCm: notMeasured,
  secondTapeCm: notMeasured,
  lastGoodLengthCm: notMeasured,
  lastGoodEntryCm: notMeasured,
};

const arm = (surveys: Partial<Record<Vein, Station[]>>, more: Partial<ArmInput> = {}): ArmInput => ({
  armLengthCm: centimetre(21),
  bars: [],
  surveys: Object.entries(surveys).map(([vein, stations]) => ({ vein: vein as Vein, stations })),
  pastLines: [],
  ...more,
});

const adult = (right: ArmInput, left: ArmInput = arm({}), more: Partial<PlanInput> = {}): PlanInput => ({
  patient: {
    name: "ROWAN, Edda",
    identifier: "20418",
    bornOn: missing("not asked"),
    age: { value: 58, unit: "years" },
    bornPreterm: missing("not asked"),
    correctedAgeDays: missing("not asked"),
    weightKg: kilogram(71),
    heightCm: centimetre(168),
    dominantArm: "left",
  },
  need: { lumens: 1, flowMlPerHour: millilitrePerHour(0), blood: false, contrastMlPerSecond: millilitrePerSecond(0) },
  arms: { right, left },
  shelf: [catheter(3, 1), catheter(4, 1), catheter(5, 2), catheter(4, 2)],
  length: {
    sides: { right: noLengths, left: noLengths },
    clavicleCm: notMeasured,
    sternumCm: notMeasured,
    entryToAxillaryPointCm: notMeasured,
    creaseBelowEpicondyleCm: notMeasured,
    outsideCm: notMeasured,
  },
  anaesthetic: { concentrationPercent: notMeasured, withAdrenaline: notMeasured },
  overrides: [],
  ...more,
});

const goodBasilic = () => arm({ basilic: [station(8, 4, 9), station(11, 4.4, 10), station(14, 4.8, 12)] });

describe("one arm, one good vein", () => {
  const answer = planLine(adult(goodBasilic()), policy);

  test("the plan is made, with the smallest catheter that carries the need", () => {
    expect(answer.outcome).toBe("planned");
    expect(answer.chosen?.catheterId).toBe("3-1");
    expect(answer.chosen?.armBand).toBe("preferred half");
  });

  test("the point stands at least the tape error inside the allowed stretch", () => {
    const { allowed, chosen } = answer;
    if (!allowed || !chosen) throw new Error("no place");
    expect(chosen.veinEntryCm - allowed.fromCm).toBeGreaterThanOrEqual(0.5 - 1e-9);
    expect(allowed.toCm - chosen.veinEntryCm).toBeGreaterThanOrEqual(0.5 - 1e-9);
  });

  test("two lumens take the smaller of the two-lumen catheters", () => {
    const two = planLine(adult(goodBasilic(), arm({}), { need: { ...adult(goodBasilic()).need, lumens: 2 } }), policy);
    expect(two.chosen?.catheterId).toBe("4-2");
  });
});

describe("what may not be planned", () => {
  test("no arm is chosen before its bars are asked", () => {
    const answer = planLine(adult({ ...goodBasilic(), bars: missing("not asked") }), policy);
    expect(answer.chosen).toBeUndefined();
    expect(answer.findings.map(({ code }) => code)).toContain("arm-bars-not-asked");
  });

  test("a barred arm gives way to the other, and is planned against only with a reason and two names", () => {
    const barred = { ...goodBasilic(), bars: ["dialysis-access"] };
    expect(planLine(adult(barred, goodBasilic()), policy).chosen?.side).toBe("left");
    expect(planLine(adult(barred), policy).chosen).toBeUndefined();
    const override = {
      code: "arm-barred.dialysis-access",
      side: "right" as const,
      reason: "only vein left",
      names: ["A B", "C D"] as const,
    };
    expect(planLine(adult(barred, arm({}), { overrides: [override] }), policy).chosen?.side).toBe("right");
    const sameName = { ...override, names: ["A B", "a b "] as const };
    expect(planLine(adult(barred, arm({}), { overrides: [sameName] }), policy).chosen).toBeUndefined();
  });

  test("age, weight or identity missing leaves no size", () => {
    for (const field of ["age", "weightKg", "name", "identifier"] as const) {
      const whole = adult(goodBasilic());
      const answer = planLine({ ...whole, patient: { ...whole.patient, [field]: missing("not known") } }, policy);
      expect(answer.chosen, field).toBeUndefined();
      expect(answer.outcome, field).toBe("refused");
    }
  });

  test("where nothing fits the rule is named and offers follow in order", () => {
    const thin = arm({ basilic: [station(8, 1.2, 9), station(13, 1.3, 12)] });
    const answer = planLine(adult(thin), policy);
    expect(answer.emptiedBy).toBe("catheter-to-vein-ratio");
    expect(answer.offers.map(({ kind }) => kind)).toEqual([
      "smaller catheter",
      "survey another vein",
      "survey the other arm",
      "tunnel from the upper third",
      "another kind of device",
    ]);
  });
});

describe("a vein reached from the upper third", () => {
  const high = arm({ basilic: [station(15, 4.5, 10), station(17, 5, 11)] });
  const answer = planLine(adult(high), policy);

  test("is tunnelled down to the middle third, and the tunnel is asked about", () => {
    expect(answer.outcome).toBe("ask");
    const { chosen } = answer;
    if (!chosen) throw new Error("no place");
    expect(chosen.tunnel === undefined || chosen.skinExitCm < 14 - 0.5 + 1e-9).toBe(true);
    expect(chosen.findings.some(({ code }) => code === "tunnel-needed" || code === "vein-entry-in-upper-third")).toBe(
      true,
    );
  });
});

describe("a place fixed by hand", () => {
  test("is judged as it stands, with the broken rule named", () => {
    const whole = adult(goodBasilic());
    const fixedPlace = { side: "right" as const, vein: "basilic" as const, veinEntryCm: centimetre(8) };
    const answer = planLine({ ...whole, fixedPlace }, policy);
    expect(answer.chosen?.veinEntryCm).toBe(8);
    const far = planLine({ ...whole, fixedPlace: { ...fixedPlace, veinEntryCm: centimetre(16) } }, policy);
    expect(far.chosen).toBeUndefined();
    expect(far.findings.map(({ code }) => code)).toContain("fixed-place-not-measured");
  });
});

describe("what lies beyond the entry", () => {
  const withBeyond = (more: Partial<Station>) =>
    arm({ basilic: [station(8, 4, 9), station(11, 4.4, 10), station(14, 4.8, 12, more)] });

  test("a clot anywhere in the arm bars it, ticked or not", () => {
    const answer = planLine(adult(withBeyond({ thrombus: true })), policy);
    expect(answer.chosen).toBeUndefined();
    expect(answer.findings.find(({ code }) => code === "arm-barred")?.values["reason"]).toBe("thrombosis");
    const elsewhere = arm({
      basilic: [station(8, 4, 9), station(11, 4.4, 10)],
      brachial: [station(11, 3, 14, { thrombus: true })],
    });
    expect(planLine(adult(elsewhere), policy).chosen).toBeUndefined();
  });

  test("a wall that does not compress further on is asked about", () => {
    const answer = planLine(adult(withBeyond({ compressible: false })), policy);
    expect(answer.outcome).toBe("ask");
    expect(answer.findings.map(({ code }) => code)).toContain("vein-does-not-compress");
  });

  test("a vein that narrows further on is asked about, with its place", () => {
    const narrow = arm({ basilic: [station(8, 4, 9), station(11, 4.4, 10), station(14, 1.2, 12)] });
    const answer = planLine(adult(narrow), policy);
    expect(answer.outcome).toBe("ask");
    expect(answer.chosen?.findings.find(({ code }) => code === "vein-narrows-beyond")?.values["atCm"]).toBe(14);
  });

  test("a strong reason against an arm weighs as much as a question in the other", () => {
    const right = { ...goodBasilic(), bars: ["lymph-nodes"] };
    const left = arm({
      basilic: [station(8, 4, 9, { tourniquetOn: missing("not asked") }), station(11, 4.4, 10), station(14, 4.8, 12)],
    });
    expect(
      planLine(adult(right, left, { patient: { ...adult(right).patient, dominantArm: "left" } }), policy).chosen?.side,
    ).toBe("left");
  });

  test("a nerve nobody looked for is a question beside the brachial vein", () => {
    const unknown = { nerveBeside: missing("not asked") };
    const brachial = arm({
      brachial: [station(8, 4, 9, unknown), station(11, 4.4, 10, unknown), station(14, 4.8, 12, unknown)],
    });
    expect(planLine(adult(brachial), policy).outcome).toBe("ask");
  });

  test("an entry far from any measurement is asked about", () => {
    const sparse = arm({ basilic: [station(2, 4, 9), station(19, 4.6, 12)] });
    const fixedPlace = { side: "right" as const, vein: "basilic" as const, veinEntryCm: centimetre(11) };
    const answer = planLine(adult(sparse, arm({}), { fixedPlace }), policy);
    expect(answer.outcome).toBe("ask");
    expect(answer.chosen?.findings.find(({ code }) => code === "between-readings")?.level).toBe("ask");
  });
});

test("a corrected age left in a form does not make an adult a newborn", () => {
  const whole = adult(goodBasilic());
  const answer = planLine({ ...whole, patient: { ...whole.patient, bornPreterm: true, correctedAgeDays: 10 } }, policy);
  expect(answer.outcome).toBe("planned");
});
