import { thirdsOf } from "../arm/index.ts";
import { lidocaineCeiling } from "../anaesthetic/index.ts";
import { judgeRatio } from "../catheter/index.ts";
import { childAxillaryToCarina } from "../length/index.ts";
import {
  centimetre,
  french,
  frenchToMillimetre,
  kilogram,
  millimetre,
  pound,
  poundToKilogram,
} from "../quantity/index.ts";

export interface GoldenNumber {
  readonly name: string;
  /** Computed now, by the code that plans. */
  readonly now: () => number;
  readonly expected: number;
  readonly tolerance: number;
}

const cuts = { limit: 0.45, chanceMet: 0.9, chanceNotMet: 0.1 };
const fiveFrench = (diameterMm: number) =>
  judgeRatio(
    { outsideDiameterMm: frenchToMillimetre(french(5)), diameterMm: millimetre(diameterMm), sdMm: millimetre(0.3) },
    cuts,
  );
const rows = { plain: { mgPerKg: 4.5, mostMg: 300 }, withAdrenaline: { mgPerKg: 7, mostMg: 500 } };

/** Numbers known from outside the program, computed at every start. One that is off stops all calculation. */
export const goldenNumbers: readonly GoldenNumber[] = [
  { name: "4 Fr in mm", now: () => frenchToMillimetre(french(4)), expected: 4 / 3, tolerance: 1e-12 },
  { name: "22 lb in kg", now: () => poundToKilogram(pound(22)), expected: 9.97903214, tolerance: 1e-9 },
  {
    name: "end of the lower third of 21 cm",
    now: () => thirdsOf(centimetre(21)).middleFromCm,
    expected: 7,
    tolerance: 1e-12,
  },
  {
    name: "start of the preferred half of 18 cm",
    now: () => thirdsOf(centimetre(18)).preferredFromCm,
    expected: 9,
    tolerance: 1e-12,
  },
  { name: "5 Fr in 3.70 mm, ratio", now: () => fiveFrench(3.7).ratio, expected: 0.45045, tolerance: 1e-5 },
  { name: "5 Fr in 3.80 mm, chance within 45 %", now: () => fiveFrench(3.8).chance, expected: 0.6259, tolerance: 5e-4 },
  {
    name: "child 100 cm, right, to carina",
    now: () => childAxillaryToCarina("right", centimetre(100)),
    expected: 12.03,
    tolerance: 1e-9,
  },
  {
    name: "lidocaine 50 kg plain 1 %, mL",
    now: () =>
      lidocaineCeiling({ adult: true, weightKg: kilogram(50), concentrationPercent: 1, withAdrenaline: false }, rows)
        .mostMl ?? Number.NaN,
    expected: 22.5,
    tolerance: 1e-9,
  },
];

export interface SelfTest {
  readonly passed: boolean;
  readonly failures: readonly string[];
}

export function runSelfTest(numbers: readonly GoldenNumber[] = goldenNumbers): SelfTest {
  const failures = numbers
    .filter(({ now, expected, tolerance }) => !(Math.abs(now() - expected) <= tolerance))
    .map(({ name }) => name);
  return { passed: failures.length === 0, failures };
}
