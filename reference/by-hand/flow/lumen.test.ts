import { expect, test } from "vitest";
import {
  canCarry,
  contrastInjection,
  dividedBore,
  ellipticalLumen,
  GRAVITY_TEST,
  gravityDrive,
  gravityTest,
  lumenFlow,
  primingAfterTrim,
  primingVolume,
  roundLumen,
  sectorLumen,
  syringePressure,
  waterDensity,
  waterViscosity,
  type Lumen,
  type LumenAnswer,
} from "../../../src/core/flow/index.ts";
import { missing } from "../../../src/core/missing/index.ts";
import {
  celsius,
  centimetre,
  french,
  millilitre,
  millilitrePerHour,
  millilitrePerSecond,
  millimetre,
  newton,
  pascal,
  radian,
  squareMillimetre,
} from "../../../src/core/quantity/index.ts";
import { demoShelf } from "../../../src/practice/index.ts";
import { checkAgainst } from "../../check.ts";

const lumen = (answer: LumenAnswer): Lumen => {
  if (answer.kind === "refused") throw new Error(answer.reason);
  return answer;
};
const divided = (size: number, lumens: number, wall = 0.25, septum = 0.2) =>
  dividedBore({
    outsideDiameterMm: millimetre(size / 3),
    wallMm: millimetre(wall),
    septumMm: millimetre(septum),
    lumens,
  });
const water = { viscosity: waterViscosity(celsius(22)), density: waterDensity(celsius(22)) };
const oneMetre = gravityDrive(centimetre(100), water.density, pascal(0));
const through = (bore: number, lengthCm: number) =>
  lumenFlow({ lumen: lumen(roundLumen(millimetre(bore))), lengthCm: centimetre(lengthCm), fluid: water }, oneMetre);

checkAgainst(
  {
    quantity: "Conductance of half-moon and ellipse, closed forms",
    unit: "relative",
    source: "pi/8 - 1/pi and pi/40, by hand",
    kind: "by-hand",
    tolerance: 1e-9,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    compare("half-moon", lumen(sectorLumen(millimetre(1), radian(Math.PI))).conductance, Math.PI / 8 - 1 / Math.PI);
    compare("ellipse 1 by 0.5", lumen(ellipticalLumen(millimetre(2), millimetre(1))).conductance, Math.PI / 40);
  },
);

checkAgainst(
  {
    quantity: "Conductance of ideal sectors of radius 1",
    unit: "relative",
    source: "sector series to 400,000 terms, NumPy 2.4, agreeing with finite elements to 3e-14",
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    for (const [angle, conductance] of [
      [90, 0.0205818938],
      [120, 0.0360530438],
      [180, 0.0743891955],
      [240, 0.119129374],
    ] as const)
      compare(
        `${angle} degrees`,
        lumen(sectorLumen(millimetre(1), radian((angle * Math.PI) / 180))).conductance,
        conductance,
      );
  },
);

checkAgainst(
  {
    quantity: "Septum of no thickness: all lumens together over the undivided bore",
    unit: "share",
    source: "sector series by hand: n G(2 pi/n) / (pi/8)",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 4,
  },
  (compare) => {
    const single = lumen(divided(6, 1, 0)).conductance;
    compare("two", (2 * lumen(divided(6, 2, 0, 0)).conductance) / single, 0.378861);
    compare("three", (3 * lumen(divided(6, 3, 0, 0)).conductance) / single, 0.275425);
    compare("four", (4 * lumen(divided(6, 4, 0, 0)).conductance) / single, 0.209645);
    compare("six", (6 * lumen(divided(6, 6, 0, 0)).conductance) / single, 0.133343);
  },
);

checkAgainst(
  {
    quantity: "Gravity flow through round lumens, water 22 C under 1 m",
    unit: "relative",
    source: "quadratic a Q^2 + b Q = rho g h by hand, and the viscous law alone",
    kind: "by-hand",
    tolerance: 5e-3,
    relative: true,
    comparisons: 14,
  },
  (compare) => {
    for (const [bore, length, viscous, flow] of [
      [0.4, 50, 0.773, 0.771],
      [0.6, 50, 3.914, 3.89],
      [0.8, 50, 12.37, 12.14],
      [1, 50, 30.2, 28.89],
      [1, 20, 75.49, 60.99],
      [1.2, 40, 78.27, 68.99],
    ] as const) {
      compare(`${bore} mm, ${length} cm, viscous`, through(bore, length).viscousFlow, viscous);
      compare(`${bore} mm, ${length} cm`, through(bore, length).flow, flow);
    }
    compare("0.8 mm, 50 cm, Reynolds number", through(0.8, 50).reynolds, 337);
    compare("0.8 mm, 50 cm, entrance", through(0.8, 50).entranceCm, 0.056 * 337 * 0.08);
  },
);

checkAgainst(
  {
    quantity: "Hagen-Poiseuille by length and bore",
    unit: "ratio",
    source: "Q goes with d^4 / L, by hand",
    kind: "by-hand",
    tolerance: 1e-9,
    comparisons: 2,
  },
  (compare) => {
    compare("twice the length", through(0.6, 100).viscousFlow / through(0.6, 50).viscousFlow, 0.5);
    compare("2^(1/4) times the bore", through(0.6 * 2 ** 0.25, 50).viscousFlow / through(0.6, 50).viscousFlow, 2);
  },
);

checkAgainst(
  {
    quantity: "Syringe against a blocked line",
    unit: "kPa",
    source: "F / A by hand; bores 4.7 and 14.5 mm (the second from memory)",
    kind: "by-hand",
    tolerance: 1,
    comparisons: 4,
  },
  (compare) => {
    for (const [force, bore, pressure] of [
      [30, 4.7, 1729],
      [30, 14.5, 182],
      [10, 4.7, 576],
      [50, 19.1, 175],
    ] as const)
      compare(`${force} N on ${bore} mm`, syringePressure(newton(force), millimetre(bore)), pressure);
  },
);

checkAgainst(
  {
    quantity: "Priming volume, whole and trimmed",
    unit: "mL",
    source: "area x length by hand",
    kind: "by-hand",
    tolerance: 5.1e-4,
    comparisons: 2,
  },
  (compare) => {
    compare("4 Fr single, 50 cm", primingVolume(lumen(divided(4, 1)).area, centimetre(50), millilitre(0)), 0.2727);
    const cut = primingAfterTrim(
      { volumeMl: millilitre(0.6), lengthCm: centimetre(55) },
      squareMillimetre(0.54542),
      centimetre(42),
    );
    compare("cut from 55 to 42 cm", cut.kind === "volume" ? cut.volumeMl : Number.NaN, 0.5291);
  },
);

test("walls that leave no lumen are refused", () => {
  expect(divided(4, 1, 0.7)).toMatchObject({ kind: "refused", reason: "walls thicker than the bore" });
  expect(divided(4, 2, 0.25, 0.84)).toMatchObject({ kind: "refused", reason: "walls thicker than the bore" });
  expect(divided(4, 3, 0.25, 0.8)).toMatchObject({ kind: "refused", reason: "walls thicker than the bore" });
  expect(divided(4, 2, 0.25, 0.82)).toMatchObject({ kind: "lumen" });
  expect(divided(4, 7)).toMatchObject({ kind: "refused" });
  expect(roundLumen(millimetre(0))).toMatchObject({ kind: "refused" });
  expect(sectorLumen(millimetre(1), radian(7))).toMatchObject({ kind: "refused" });
  const cut = primingAfterTrim(
    { volumeMl: millilitre(0.1), lengthCm: centimetre(55) },
    squareMillimetre(0.5),
    centimetre(20),
  );
  expect(cut).toEqual({ kind: "refused", reason: "more cut away than the label holds" });
});

test("the gravity test prints whole millilitres, and the rig hardly shows in a thin lumen", () => {
  const test4 = gravityTest({ lumen: lumen(divided(4, 1)), lengthCm: centimetre(50), fluid: water });
  expect(test4.printed).toBe(14);
  expect(1 - test4.flow / test4.withoutRig.flow).toBeLessThan(1e-3);
  const wide = { lumen: lumen(roundLumen(millimetre(1.5))), lengthCm: centimetre(50), fluid: water };
  expect(1 - gravityTest(wide).flow / gravityTest(wide).withoutRig.flow).toBeGreaterThan(0.01);
  expect(gravityTest({ lumen: lumen(divided(4, 3)), lengthCm: centimetre(50), fluid: water }).printed).toBe(0);
  expect(GRAVITY_TEST.runs).toBe(3);
});

test("the label beats the model, and contrast has no model at all", () => {
  const [first] = demoShelf;
  if (!first) throw new Error("an empty shelf");
  const blank = {
    ...first,
    nominalFrench: french(4),
    outsideDiameterMm: missing("not known"),
    lumens: 2,
    flowLabelMlPerHour: missing("not known"),
    contrastLabelMlPerSecond: missing("not known"),
  };
  const demand = { rate: millilitrePerHour(60), fluid: water, drive: oneMetre, lengthCm: centimetre(50) };
  const walls = { wallMm: millimetre(0.25), septumMm: millimetre(0.2) };
  const model = canCarry(blank, demand, walls);
  if (model.kind !== "model, teaching only") throw new Error(model.kind);
  expect(model.most).toBeCloseTo(70.2, 0);
  expect(model.carries).toBe(true);
  const labelled = { ...blank, flowLabelMlPerHour: millilitrePerHour(50) };
  expect(canCarry(labelled, demand, walls)).toEqual({
    kind: "label",
    most: 50,
    carries: false,
    thickerThanWater: false,
  });
  expect(contrastInjection(blank)).toEqual({ kind: "no label, no number" });
  expect(contrastInjection({ ...blank, contrastLabelMlPerSecond: millilitrePerSecond(0) })).toEqual({
    kind: "the label forbids it",
  });
  expect(contrastInjection({ ...blank, contrastLabelMlPerSecond: millilitrePerSecond(5) })).toEqual({
    kind: "label",
    most: 5,
  });
});
