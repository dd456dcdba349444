import { expect, test } from "vitest";
import {
  fluidFigures,
  glucoseFigures,
  gravityDrive,
  headFor,
  lumenFlow,
  millimetreOfMercury,
  poundPerSquareInch,
  pressureForFlow,
  pumpFlow,
  roundLumen,
  sectorLumen,
  ellipticalLumen,
  waterDensity,
  waterViscosity,
  waterViscosityAt,
  FLUIDS,
  type FlowingFluid,
  type Lumen,
  type LumenAnswer,
} from "../../../src/core/flow/index.ts";
import {
  celsius,
  centimetre,
  kilogramPerCubicMetre,
  millilitrePerMinute,
  millimetre,
  millipascalSecond,
  pascal,
  radian,
} from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

const lumen = (answer: LumenAnswer): Lumen => {
  if (answer.kind === "refused") throw new Error(answer.reason);
  return answer;
};
const round = (bore: number) => lumen(roundLumen(millimetre(bore)));
const fluid = (viscosity: number, density: number): FlowingFluid => ({
  viscosity: millipascalSecond(viscosity),
  density: kilogramPerCubicMetre(density),
});
/** Fanning factor times Reynolds number at the hydraulic diameter: Dh^2 A / (2 conductance). */
const fRe = ({ hydraulicDiameterMm, area, conductance }: Lumen) =>
  (hydraulicDiameterMm ** 2 * area) / (2 * conductance);

checkAgainst(
  {
    quantity: "Viscosity of water, the formulation's own check value",
    unit: "relative",
    source: "IAPWS R12-08, 2008, table 4: 889.735100 uPa.s at 298.15 K and 998 kg/m3",
    kind: "published",
    tolerance: 1e-9,
    relative: true,
    comparisons: 1,
  },
  (compare) =>
    compare("298.15 K, 998 kg/m3", waterViscosityAt(celsius(25), kilogramPerCubicMetre(998)) * 1000, 889.7351),
);

checkAgainst(
  {
    quantity: "Viscosity of water by temperature",
    unit: "relative",
    source: "IAPWS R12-08, 2008, at Kell's density",
    kind: "published",
    tolerance: 1e-3,
    relative: true,
    comparisons: 7,
  },
  (compare) => {
    for (const [temperature, viscosity] of [
      [10, 1.3059],
      [20, 1.0016],
      [22, 0.9544],
      [25, 0.89],
      [30, 0.7972],
      [37, 0.6913],
      [40, 0.6527],
    ] as const)
      compare(`${temperature} C`, waterViscosity(celsius(temperature)), viscosity);
  },
);

checkAgainst(
  {
    quantity: "Viscosity of water by another formula",
    unit: "relative",
    source: "Kestin J, Sokolov M, Wakeham WA 1978, J Phys Chem Ref Data 7:941 (coefficients from memory)",
    kind: "published",
    tolerance: 1e-3,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    for (const t of [10, 20, 30, 40]) {
      const power = ((20 - t) / (t + 96)) * (1.2364 - 1.37e-3 * (20 - t) + 5.7e-6 * (20 - t) ** 2);
      compare(`${t} C`, waterViscosity(celsius(t)), 1.002 * 10 ** power);
    }
  },
);

checkAgainst(
  {
    quantity: "Density of water by temperature",
    unit: "kg/m3",
    source: "Kell GS 1975, J Chem Eng Data 20:97, evaluated by NumPy 2.4",
    kind: "published",
    tolerance: 0.0051,
    comparisons: 5,
  },
  (compare) => {
    for (const [temperature, density] of [
      [4, 999.97],
      [10, 999.7],
      [20, 998.2],
      [22, 997.77],
      [37, 993.33],
    ] as const)
      compare(`${temperature} C`, waterDensity(celsius(temperature)), density);
  },
);

checkAgainst(
  {
    quantity: "Friction factor times Reynolds number of sectors and half-moon",
    unit: "f.Re",
    source: "Shah RK, London AL 1978, Laminar Flow Forced Convection in Ducts: semicircle 15.767 (from memory)",
    kind: "published",
    tolerance: 1e-3,
    comparisons: 1,
  },
  (compare) => compare("half-moon", fRe(lumen(sectorLumen(millimetre(1), radian(Math.PI)))), 15.767),
);

checkAgainst(
  {
    quantity: "Friction factor times Reynolds number of sectors and ellipses",
    unit: "f.Re",
    source: "sector series and elliptic perimeter in SciPy 1.17.1",
    kind: "independent",
    tolerance: 6e-5,
    comparisons: 10,
  },
  (compare) => {
    for (const [angle, value] of [
      [30, 13.30994],
      [60, 14.17114],
      [90, 14.76876],
      [120, 15.20038],
      [180, 15.76683],
      [240, 16.10777],
      [360, 16.46959],
    ] as const)
      compare(`sector of ${angle}`, fRe(lumen(sectorLumen(millimetre(1), radian((angle * Math.PI) / 180)))), value);
    for (const [short, value] of [
      [0.75, 16.16099],
      [0.5, 16.8233],
      [0.25, 18.23996],
    ] as const)
      compare(`ellipse ${short}`, fRe(lumen(ellipticalLumen(millimetre(2), millimetre(2 * short)))), value);
  },
);

checkAgainst(
  {
    quantity: "Worked textbook examples of Hagen and Poiseuille",
    unit: "relative",
    source:
      "needle 31.4 mm x 0.35 mm (printed 8.5e4 Pa); OpenStax College Physics 12.4 (15.2 kPa, 16.2 kPa gauge; from memory); transfusion head 1.05 m; 500 cm3 in 30 min, 0.41 mm",
    kind: "published",
    tolerance: 5e-3,
    relative: true,
    comparisons: 5,
  },
  (compare) => {
    const needle = { lumen: round(0.35), lengthCm: centimetre(3.14), fluid: fluid(1, 1000) };
    compare("needle, 1 g/s", pressureForFlow(needle, millilitrePerMinute(60)).viscous, 8.53e4);
    const saline = { lumen: round(0.3), lengthCm: centimetre(2.5), fluid: fluid(1.005, 1000) };
    const drop = pressureForFlow(saline, millilitrePerMinute(0.12 * 60)).viscous;
    compare("saline, 0.120 cm3/s", drop, 15.17e3);
    compare("saline, above a vein of 8 mmHg", drop + millimetreOfMercury(8), 16.23e3);
    const blood = { lumen: round(0.81), lengthCm: centimetre(2.6), fluid: fluid(4, 1050) };
    const needleDrop = pressureForFlow(blood, millilitrePerMinute(2.3)).viscous;
    compare("transfusion, head", headFor(needleDrop, kilogramPerCubicMetre(1050), millimetreOfMercury(78)), 104.7);
    // the bore that gives 500 cm3 in 30 min, from the flow of a 0.412 mm one
    const slow = { lumen: round(0.412), lengthCm: centimetre(2.5), fluid: fluid(1, 1000) };
    compare("500 cm3 in 30 min", lumenFlow(slow, pascal(9800)).viscousFlow, 500 / 30);
  },
);

checkAgainst(
  {
    quantity: "Glucose viscosity",
    unit: "relative",
    source:
      "Physical Chemistry of Foods, table 5.2: 20 % by mass at 20 C 1.90 mPa.s; relative 1.267 at 0.503 mol/kg, 35 C",
    kind: "published",
    tolerance: 0.015,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    // 20 % by mass is 216 g/L of glucose, 238 of the monohydrate; 0.503 mol/kg is 94.4 g/L of the monohydrate
    compare("20 % by mass, 20 C", glucoseFigures(238, celsius(20)).viscosity, 1.9);
    compare("0.503 mol/kg, 35 C", glucoseFigures(94.4, celsius(35)).viscosity / waterViscosity(celsius(35)), 1.267);
  },
);

checkAgainst(
  {
    quantity: "Pump at 600 mmHg through 45 cm, tip 5 cm under water, 21.1 C",
    unit: "mL/h",
    source: "viscous law by hand: bores 0.602 and 0.782 mm for the 2,100 and 6,000 mL/h of a bench study",
    kind: "by-hand",
    tolerance: 30,
    comparisons: 2,
  },
  (compare) => {
    for (const [bore, rate] of [
      [0.602, 2100],
      [0.782, 6000],
    ] as const) {
      const run = { lumen: round(bore), lengthCm: centimetre(45), fluid: fluid(0.9752, 998) };
      const pump = { setRate: millilitrePerMinute(200), limit: millimetreOfMercury(600), veinPressure: pascal(490.3) };
      compare(`${bore} mm`, pumpFlow(run, pump).atLimit.viscousFlow * 60, rate);
    }
  },
);

test("a pump under its limit gives its set rate", () => {
  const run = { lumen: round(0.8), lengthCm: centimetre(45), fluid: fluid(1, 1000) };
  const pump = { setRate: millilitrePerMinute(2), limit: poundPerSquareInch(10), veinPressure: pascal(1000) };
  expect(pumpFlow(run, pump)).toMatchObject({ flow: 2, limited: false });
  const fast = pumpFlow(run, { ...pump, setRate: millilitrePerMinute(2000) });
  expect(fast.limited).toBe(true);
  expect(fast.flow).toBe(fast.atLimit.flow);
});

test("outside laminar flow every answer says so", () => {
  const water = { viscosity: waterViscosity(celsius(22)), density: waterDensity(celsius(22)) };
  const drive = gravityDrive(centimetre(100), water.density, pascal(0));
  const wide = lumenFlow({ lumen: round(1.5), lengthCm: centimetre(20), fluid: water }, drive);
  expect(wide.reynolds).toBeCloseTo(3107, -1);
  expect(wide.regime).toBe("not laminar");
  const needle = { lumen: round(0.35), lengthCm: centimetre(3.14), fluid: fluid(1, 1000) };
  const pressed = pressureForFlow(needle, millilitrePerMinute(60));
  expect(pressed.at.reynolds).toBeCloseTo(3638, -1);
  expect(pressed.at.regime).toBe("not laminar");
  expect(lumenFlow({ lumen: round(1.5), lengthCm: centimetre(40), fluid: water }, drive).regime).toBe(
    "may not be laminar",
  );
});

test("every fluid has figures with a source, or says that it has none", () => {
  const notKnown = FLUIDS.filter((name) => fluidFigures(name, celsius(22)).kind === "not known");
  expect(notKnown).toEqual([
    "glucose 50 %",
    "lipid emulsion 20 %",
    "iohexol 300",
    "iohexol 350",
    "iopamidol 300",
    "iopamidol 370",
  ]);
  for (const name of FLUIDS) {
    const figures = fluidFigures(name, celsius(37));
    if (figures.kind === "not known") continue;
    expect(figures.source.length, name).toBeGreaterThan(10);
    expect(figures.viscosity, name).toBeGreaterThan(0.6);
  }
  expect(fluidFigures("whole blood", celsius(22))).toMatchObject({ howKnown: "computed" });
  expect(() => fluidFigures("water", celsius(-1))).toThrow(RangeError);
  expect(() => glucoseFigures(500, celsius(20))).toThrow(RangeError);
  expect(() => waterViscosity(celsius(120))).toThrow(RangeError);
});
