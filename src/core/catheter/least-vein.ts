import { millimetre, type Millimetre } from "../quantity/index.ts";

/**
 * The narrowest vein in which a catheter keeps a ratio, without doubt.
 *   least = OD / limit
 * Holds: OD > 0, limit > 0. Source: definition of the ratio. Example: 4 Fr at 45 %: 2.963 mm.
 */
export const leastVein = (outsideDiameterMm: Millimetre, limit: number): Millimetre =>
  millimetre(outsideDiameterMm / limit);

/**
 * The same on a caliper that reads tenths: rounded up, never to the nearest, which would break the rule.
 * Example: 5 Fr at 45 % is 3.704 mm exactly and 3.8 mm on the caliper.
 */
export const leastVeinByCaliper = (outsideDiameterMm: Millimetre, limit: number): Millimetre =>
  // a hair is taken off before rounding up, so that 3.0 stays 3.0 when it is stored as 3.0000000000000004
  millimetre(Math.ceil(leastVein(outsideDiameterMm, limit) * 10 - 1e-9) / 10);
