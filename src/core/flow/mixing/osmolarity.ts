import {
  milliosmolePerLitre,
  millilitrePerHour,
  millilitrePerMinute,
  type MilliosmolePerLitre,
  type MillilitrePerHour,
  type MillilitrePerMinute,
} from "../../quantity/index.ts";

export interface Infusion {
  readonly osmolarity: MilliosmolePerLitre;
  readonly rate: MillilitrePerHour;
}

export interface MixedOsmolarity {
  /** Water crosses the red cells' membranes at once: all of the blood dilutes. */
  readonly wholeBlood: MilliosmolePerLitre;
  /** The cells take no part: the worst case of full mixing. */
  readonly plasmaOnly: MilliosmolePerLitre;
  /** What the wall beside the tip can see before anything has mixed. */
  readonly undiluted: MilliosmolePerLitre;
}

/**
 * Mean osmolarity after full mixing at the tip.
 *   C = (f Ci + Q Cb) / (f + Q), whole blood with Q, plasma only with Q (1 - Hct)
 * Mean mixing only: the wall sees more, up to the undiluted fluid, so the mean is a lower bound and lifts no limit.
 * Holds: rates and flows not below zero; no blood flow gives the undiluted fluid. RangeError for a negative figure and
 * for a haematocrit outside 0 to below 1. Cb is usually taken as 290 mOsm/L.
 * Source: conservation of solute. Example: 1700 mOsm/L at 100 mL/h into 95 mL/min: 314.3, plasma only 331.4.
 */
export function mixedOsmolarity(
  infusion: Infusion,
  blood: { readonly flow: MillilitrePerMinute; readonly haematocrit: number; readonly osmolarity: MilliosmolePerLitre },
): MixedOsmolarity {
  const own = requireInfusion(infusion, blood.osmolarity);
  if (!(blood.flow >= 0)) throw new RangeError(`The blood flow is ${blood.flow} mL/min; it must be zero or more.`);
  if (!(blood.haematocrit >= 0 && blood.haematocrit < 1))
    throw new RangeError(`The haematocrit is ${blood.haematocrit}; it is a share from 0 to below 1, for example 0.42.`);
  const f = infusion.rate / 60;
  const mix = (q: number) => {
    if (q === 0) return infusion.osmolarity;
    // in this form equal osmolarities stay exactly equal
    return milliosmolePerLitre(own + (infusion.osmolarity - own) * (f / (f + q)));
  };
  return {
    wholeBlood: mix(blood.flow),
    plasmaOnly: mix(blood.flow * (1 - blood.haematocrit)),
    undiluted: infusion.osmolarity,
  };
}

/**
 * Blood flow that full mixing needs to stay under a limit.
 *   Q = f (Ci - X) / (X - Cb)
 * Holds: X above the blood's own osmolarity, else undefined: no flow is enough. Zero when the fluid itself is below X.
 * Source: conservation of solute. Example: 1700 mOsm/L at 100 mL/h under 400: 19.70 mL/min.
 */
export function flowToStayUnder(
  infusion: Infusion,
  limit: MilliosmolePerLitre,
  bloodOsmolarity: MilliosmolePerLitre,
): MillilitrePerMinute | undefined {
  const own = requireInfusion(infusion, bloodOsmolarity);
  if (infusion.osmolarity <= limit || infusion.rate === 0) return millilitrePerMinute(0);
  if (!(limit > own)) return undefined;
  return millilitrePerMinute(((infusion.rate / 60) * (infusion.osmolarity - limit)) / (limit - own));
}

/**
 * Rate that full mixing in a blood flow keeps under a limit.
 *   f = Q (X - Cb) / (Ci - X)
 * Holds: Infinity when the fluid itself is not above X; 0 when X is not above the blood's own. Negative flow: RangeError.
 * Source: conservation of solute. Example: 1700 mOsm/L into 20 mL/min under 400: 101.5 mL/h.
 */
export function rateToStayUnder(
  osmolarity: MilliosmolePerLitre,
  flow: MillilitrePerMinute,
  limit: MilliosmolePerLitre,
  bloodOsmolarity: MilliosmolePerLitre,
): MillilitrePerHour {
  if (!(flow >= 0)) throw new RangeError(`The blood flow is ${flow} mL/min; it must be zero or more.`);
  const own = requireInfusion({ osmolarity, rate: millilitrePerHour(0) }, bloodOsmolarity);
  if (osmolarity <= limit) return millilitrePerHour(Number.POSITIVE_INFINITY);
  return millilitrePerHour(limit > own ? (60 * flow * (limit - own)) / (osmolarity - limit) : 0);
}

function requireInfusion(infusion: Infusion, own: MilliosmolePerLitre): MilliosmolePerLitre {
  if (!(infusion.osmolarity >= 0 && infusion.rate >= 0 && own >= 0))
    throw new RangeError(
      `Osmolarity ${infusion.osmolarity} mOsm/L, rate ${infusion.rate} mL/h and the blood's ${own} must be zero or more.`,
    );
  return own;
}
