import { millipascalSecond, perSecond, type MillipascalSecond, type PerSecond } from "../../quantity/index.ts";
import type { Sourced } from "./how-known.ts";

/** Carreau-Yasuda: the viscosity falls from one plateau to another as the shear rate rises. */
export interface ShearThinningLaw extends Sourced {
  readonly name: string;
  readonly atRest: MillipascalSecond;
  readonly atHighShear: MillipascalSecond;
  /** lambda, in seconds: its inverse is the shear rate where thinning begins. */
  readonly timeSecond: number;
  /** n: slope of the thinning part, 1 for none. */
  readonly index: number;
  /** a: sharpness of the turn; 2 in Carreau's own form. */
  readonly turn: number;
}

const CHO_KENSEY: Sourced = {
  source: "Cho YI, Kensey KR 1991, Biorheology 28:241, parameters from copies of the paper",
  howKnown: "from memory",
};

export const CARREAU_YASUDA_BLOOD: ShearThinningLaw = {
  name: "Carreau-Yasuda",
  atRest: millipascalSecond(56),
  atHighShear: millipascalSecond(3.45),
  timeSecond: 1.902,
  index: 0.22,
  turn: 1.25,
  ...CHO_KENSEY,
};

export const CARREAU_BLOOD: ShearThinningLaw = {
  name: "Carreau",
  atRest: millipascalSecond(56),
  atHighShear: millipascalSecond(3.45),
  timeSecond: 3.313,
  index: 0.3568,
  turn: 2,
  ...CHO_KENSEY,
};

/**
 * Viscosity of blood at a shear rate.
 *   mu = high + (rest - high) [1 + (lambda rate)^a]^((n - 1)/a)
 * Holds: rate >= 0, else RangeError; whole blood near 37 C. At 1 per second it is far above what one rheometer read
 * (5.46 mPa.s, Rosenson RS and others 1996, Clin Chem 42:1189): low rates depend on the device.
 * Source: Yasuda's form with the parameters of the law. Example: Carreau-Yasuda at 100 per second: 4.326 mPa.s.
 */
export function bloodViscosity(rate: PerSecond, law: ShearThinningLaw): MillipascalSecond {
  if (!(rate >= 0)) throw new RangeError(`The shear rate is ${rate} per second; it must be zero or more.`);
  const bend = (1 + (law.timeSecond * rate) ** law.turn) ** ((law.index - 1) / law.turn);
  return millipascalSecond(law.atHighShear + (law.atRest - law.atHighShear) * bend);
}

/**
 * The shear rate at which a law gives a shear stress (in mPa): the inverse of rate x viscosity.
 *   Newton in the logarithms, where the slope lies between n and 1
 * Holds: stress >= 0. Source: definition. Example: Carreau-Yasuda at 432.6 mPa: 100 per second.
 */
export function shearRateAt(stress: number, law: ShearThinningLaw): PerSecond {
  if (!(stress > 0)) return perSecond(0);
  let log = Math.log(stress / law.atHighShear);
  const target = Math.log(stress);
  for (let step = 0; step < 100; step += 1) {
    const turned = (law.timeSecond * Math.exp(log)) ** law.turn;
    const thinning = (law.atRest - law.atHighShear) * (1 + turned) ** ((law.index - 1) / law.turn);
    const viscosity = law.atHighShear + thinning;
    const slope = 1 + ((thinning / viscosity) * (law.index - 1) * turned) / (1 + turned);
    const move = (target - log - Math.log(viscosity)) / slope;
    log += move;
    if (Math.abs(move) < 1e-14) break;
  }
  return perSecond(Math.exp(log));
}

/**
 * Viscosity of blood relative to its plasma at a haematocrit, wide tubes and high shear.
 *   1 + 2.2 [(1 - H)^-0.8 - 1] / (0.55^-0.8 - 1)
 * Holds: 0 <= H < 1, else RangeError; meant for 0.1 to 0.7.
 * Source: Pries AR, Neuhaus D, Gaehtgens P 1992, Am J Physiol 263:H1770. Example: 0.45: 3.200.
 */
export function haematocritViscosity(haematocrit: number): number {
  if (!(haematocrit >= 0 && haematocrit < 1))
    throw new RangeError(`The haematocrit is ${haematocrit}; it is a share from 0 to below 1, for example 0.45.`);
  return 1 + (2.2 * ((1 - haematocrit) ** -0.8 - 1)) / (0.55 ** -0.8 - 1);
}
