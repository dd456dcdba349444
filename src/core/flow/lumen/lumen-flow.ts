import {
  millilitrePerMinute,
  pascal,
  type Centimetre,
  type KilogramPerCubicMetre,
  type MillilitrePerMinute,
  type MillipascalSecond,
  type Pascal,
} from "../../quantity/index.ts";
import type { Lumen } from "./lumen.ts";

/** What flows, as `fluidFigures` gives it. */
export interface FlowingFluid {
  readonly viscosity: MillipascalSecond;
  readonly density: KilogramPerCubicMetre;
}

export interface LumenRun {
  readonly lumen: Lumen;
  readonly lengthCm: Centimetre;
  readonly fluid: FlowingFluid;
}

export interface LumenFlow {
  readonly flow: MillilitrePerMinute;
  /** By the Hagen-Poiseuille law alone: what the flow would be without the entrance. */
  readonly viscousFlow: MillilitrePerMinute;
  /** With the hydraulic diameter. */
  readonly reynolds: number;
  readonly regime: FlowRegime;
  /** Length over which the profile is still forming, 0.056 Re d; short lumens never finish. */
  readonly entranceCm: Centimetre;
  /** The entrance figure is that of a round lumen; for other shapes it is an assumption. */
  readonly entranceFrom: "round" | "assumed as round";
}

/** Below `laminar` the law holds; up to `turbulent` it may; above it does not. */
export type FlowRegime = "laminar" | "may not be laminar" | "not laminar";
export interface RegimeCuts {
  readonly laminar: number;
  readonly turbulent: number;
}

/** Where pipe flow leaves the laminar state: textbook figures, Reynolds O 1883. */
export const PIPE_CUTS: RegimeCuts = { laminar: 2000, turbulent: 2300 };

/**
 * Kinetic and entrance loss of a round tube fed from a still reservoir, in rho V^2.
 *   m = (1 + K) / 2, K = 1.2508 from the boundary-layer form of developing flow, so m = 1.125
 * Source: solved on three grids, reference/independent/flow/entrance-loss.py; Shah RK 1978 uses K = 1.25 (from memory).
 */
export const ENTRANCE_LOSS = 1.125;
/** Length to 99 per cent of the developed centre speed, in Re d; from the same solution. */
export const ENTRANCE_LENGTH = 0.056;

const CUBIC_MILLIMETRE_PER_SECOND = 60 / 1000; // to mL/min

/**
 * Flow through a lumen under a pressure difference.
 *   a Q^2 + b Q = dp,   a = m rho / A^2,   b = viscosity x length / conductance
 *   Re = rho V Dh / viscosity
 * Holds: steady laminar flow of a Newtonian fluid, rigid straight lumen; the regime says when it does not. The flow is
 * given all the same, and it is too high then. Pressure zero or below gives no flow. RangeError for a length, viscosity
 * or density that is not above zero.
 * Source: Hagen 1839, Poiseuille 1840; entrance loss as `ENTRANCE_LOSS`.
 * Example: 0.8 mm, 50 cm, water at 22 C under 1 m: 12.14 mL/min (12.37 by the viscous law alone), Re 337.
 */
export function lumenFlow(run: LumenRun, pressure: Pascal, cuts: RegimeCuts = PIPE_CUTS): LumenFlow {
  const { viscous, kinetic } = losses(run);
  const drive = pressure > 0 ? pressure : 0;
  // the root without a difference of near numbers
  const flow = (2 * drive) / (viscous + Math.sqrt(viscous * viscous + 4 * kinetic * drive));
  return described(run, flow, drive / viscous, cuts);
}

/**
 * Pressure difference that drives a flow through a lumen: the other way round.
 *   dp = a Q^2 + b Q
 * Holds: as `lumenFlow`; a flow below zero is a RangeError. Source: as `lumenFlow`.
 * Example: 31.4 mm of 0.35 mm bore, 60 mL/min of water at 1.0 mPa.s: 8.5e4 Pa viscous, and not laminar (Re 3638).
 */
export function pressureForFlow(
  run: LumenRun,
  flow: MillilitrePerMinute,
  cuts: RegimeCuts = PIPE_CUTS,
): { readonly viscous: Pascal; readonly kinetic: Pascal; readonly total: Pascal; readonly at: LumenFlow } {
  if (!(flow >= 0)) throw new RangeError(`The flow is ${flow} mL/min; it must be zero or more.`);
  const { viscous, kinetic } = losses(run);
  const q = flow / CUBIC_MILLIMETRE_PER_SECOND;
  return {
    viscous: pascal(viscous * q),
    kinetic: pascal(kinetic * q * q),
    total: pascal(viscous * q + kinetic * q * q),
    at: described(run, q, q, cuts),
  };
}

/** In Pa per mm3/s and Pa per (mm3/s)^2. */
function losses({ lumen, lengthCm, fluid }: LumenRun): { readonly viscous: number; readonly kinetic: number } {
  if (!(lengthCm > 0)) throw new RangeError(`The lumen is ${lengthCm} cm long; it must be above zero.`);
  if (!(fluid.viscosity > 0 && fluid.density > 0))
    throw new RangeError(`Viscosity ${fluid.viscosity} and density ${fluid.density} must both be above zero.`);
  return {
    // mPa.s x mm / mm4 is 1e-3 Pa per mm3/s
    viscous: (fluid.viscosity * lengthCm * 10 * 1e-3) / lumen.conductance,
    // kg/m3 x (mm/s)^2 is 1e-6 Pa
    kinetic: (ENTRANCE_LOSS * fluid.density * 1e-6) / lumen.area ** 2,
  };
}

function described({ lumen, fluid }: LumenRun, flow: number, viscousFlow: number, cuts: RegimeCuts): LumenFlow {
  // kg/m3 x mm/s x mm / (mPa.s) is 1e-3
  const reynolds = ((fluid.density * (flow / lumen.area) * lumen.hydraulicDiameterMm) / fluid.viscosity) * 1e-3;
  return {
    flow: millilitrePerMinute(flow * CUBIC_MILLIMETRE_PER_SECOND),
    viscousFlow: millilitrePerMinute(viscousFlow * CUBIC_MILLIMETRE_PER_SECOND),
    reynolds,
    regime: reynolds <= cuts.laminar ? "laminar" : reynolds <= cuts.turbulent ? "may not be laminar" : "not laminar",
    entranceCm: ((ENTRANCE_LENGTH * reynolds * lumen.hydraulicDiameterMm) / 10) as Centimetre,
    entranceFrom: lumen.shape === "round" ? "round" : "assumed as round",
  };
}
