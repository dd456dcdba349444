import {
  kilopascal,
  millilitrePerMinute,
  pascal,
  type Centimetre,
  type KilogramPerCubicMetre,
  type Kilopascal,
  type MillilitrePerMinute,
  type Millimetre,
  type Newton,
  type Pascal,
} from "../../quantity/index.ts";
import { lumenFlow, PIPE_CUTS, type LumenFlow, type LumenRun, type RegimeCuts } from "./lumen-flow.ts";

/** Standard gravity, exact by definition (3rd CGPM, 1901), m/s2. */
const GRAVITY = 9.80665;
/** Exact: 101325 / 760, to the last digit that is in use. */
const PASCAL_PER_MILLIMETRE_OF_MERCURY = 133.322387415;
const PASCAL_PER_POUND_PER_SQUARE_INCH = 6894.757293168;

export const millimetreOfMercury = (value: number): Pascal => pascal(value * PASCAL_PER_MILLIMETRE_OF_MERCURY);
export const poundPerSquareInch = (value: number): Pascal => pascal(value * PASCAL_PER_POUND_PER_SQUARE_INCH);

/**
 * What a hanging bag drives with.
 *   dp = rho g h - vein pressure
 *   h from the fluid's level to the tip, rho of the fluid that fills the line
 * Holds: every head; zero or below when the vein presses as hard. Source: hydrostatics.
 * Example: 1 m of water at 22 C: 9785 Pa.
 */
export const gravityDrive = (headCm: Centimetre, density: KilogramPerCubicMetre, veinPressure: Pascal): Pascal =>
  pascal((density * GRAVITY * headCm) / 100 - veinPressure);

/**
 * The head that gives a wanted drive.
 *   h = (dp + vein pressure) / (rho g)
 * Holds: density above zero, else RangeError. Source: hydrostatics.
 * Example: 377 Pa and 78 mmHg with blood of 1050 kg/m3: 104.7 cm.
 */
export function headFor(drive: Pascal, density: KilogramPerCubicMetre, veinPressure: Pascal): Centimetre {
  if (!(density > 0)) throw new RangeError(`The density is ${density} kg/m3; it must be above zero.`);
  return ((100 * (drive + veinPressure)) / (density * GRAVITY)) as Centimetre;
}

export interface PumpFlow {
  readonly flow: MillilitrePerMinute;
  /** True when the pump would stop at its pressure before it gives the set rate. */
  readonly limited: boolean;
  /** What the lumen would carry at the pump's pressure. */
  readonly atLimit: LumenFlow;
}

/**
 * What a pump delivers through a lumen: its set rate, unless its pressure limit comes first.
 *   Q = min(set, Q(limit - vein pressure))
 * Holds: as `lumenFlow`; a set rate below zero is a RangeError. Set, filter and connector are not in it.
 * Source: definition. Example: a limit of 600 mmHg through 45 cm of 0.60 mm carries about 2100 mL/h of water.
 */
export function pumpFlow(
  run: LumenRun,
  pump: { readonly setRate: MillilitrePerMinute; readonly limit: Pascal; readonly veinPressure: Pascal },
  cuts: RegimeCuts = PIPE_CUTS,
): PumpFlow {
  if (!(pump.setRate >= 0)) throw new RangeError(`The set rate is ${pump.setRate} mL/min; it must be zero or more.`);
  const atLimit = lumenFlow(run, pascal(pump.limit - pump.veinPressure), cuts);
  const limited = atLimit.flow < pump.setRate;
  return { flow: limited ? atLimit.flow : pump.setRate, limited, atLimit };
}

/**
 * Pressure of a syringe against a blocked line.
 *   p = F / A, A = pi d^2 / 4 of the barrel's bore
 * Through an open line the pressure is that of the flow, whatever the syringe.
 * Holds: bore above zero and force not below, else RangeError. Source: definition of pressure.
 * Example: 30 N: 1729 kPa from a 4.7 mm bore (1 mL), 182 kPa from 14.5 mm (10 mL).
 */
export function syringePressure(force: Newton, boreMm: Millimetre): Kilopascal {
  if (!(boreMm > 0)) throw new RangeError(`The bore is ${boreMm} mm; it must be above zero.`);
  if (!(force >= 0)) throw new RangeError(`The force is ${force} N; it must be zero or more.`);
  return kilopascal((force / ((Math.PI * boreMm ** 2) / 4)) * 1000);
}

/**
 * The open-standard gravity test of a central venous catheter, as far as a model can repeat it.
 * Source: ISO 10555-3 annex A, in the form adopted as GOST ISO 10555-3-2011: water at 22 C from a constant level,
 * 30 s or more, volume to 1 per cent, density taken as 1000, three runs, mean in mL/min to a whole number.
 * Head 1000 mm and 525 mL/min of the bare rig: from memory, to be read in the standard before they are printed.
 */
export const GRAVITY_TEST = {
  waterCelsius: 22,
  waterCelsiusWithin: 2,
  headMm: 1000,
  headMmWithin: 5,
  leastSecond: 30,
  volumeWithinShare: 0.01,
  runs: 3,
  densityTaken: 1000,
  bareRigMlPerMinute: 525,
  bareRigWithin: 25,
} as const;

export interface GravityTest {
  /** As the standard prints it: whole mL/min. A small lumen prints as 0. */
  readonly printed: MillilitrePerMinute;
  readonly flow: MillilitrePerMinute;
  readonly withoutRig: LumenFlow;
}

/**
 * The flow a lumen would show in the gravity test.
 *   rig and lumen in series: dp = K Q^2 + a Q^2 + b Q, K = rho g h / (bare rig)^2
 * Holds: `run.fluid` is the test's water; as `lumenFlow`. Source: as `GRAVITY_TEST`; the rig's loss as a square is ours.
 * Example: 4 Fr single, wall 0.25 mm, 50 cm: 14 mL/min.
 */
export function gravityTest(run: LumenRun, cuts: RegimeCuts = PIPE_CUTS): GravityTest {
  const drive = gravityDrive((GRAVITY_TEST.headMm / 10) as Centimetre, run.fluid.density, pascal(0));
  const withoutRig = lumenFlow(run, drive, cuts);
  // the rig takes its share of the head; a few turns settle it, for the lumen is the larger loss
  let left = drive as number;
  let flow = withoutRig.flow as number;
  for (let turn = 0; turn < 200; turn += 1) {
    const taken = drive * (flow / GRAVITY_TEST.bareRigMlPerMinute) ** 2;
    const next = (left + Math.max(0, drive - taken)) / 2;
    flow = lumenFlow(run, pascal(next), cuts).flow;
    if (Math.abs(next - left) < 1e-10 * drive) break;
    left = next;
  }
  return { printed: millilitrePerMinute(Math.round(flow)), flow: millilitrePerMinute(flow), withoutRig };
}
