import { incompleteGamma, incompleteGammaInverse, normalDensity, normalLowerTail } from "../distribution/index.ts";
import type { ShrunkRate } from "./gamma-poisson.ts";

export interface RankChances {
  /** Chance of the first place, the second, ...; the first is the highest rate. */
  readonly ofPlace: readonly number[];
  readonly expected: number;
}

/** Places along a normal, wide and close enough that equal steps lose nothing. */
const [FAR, STEP] = [8.5, 0.1];

/**
 * How sure the order of units is: each unit's chance of every place, never a league table.
 *   P(place k) = E over the unit's own rate of P(k - 1 of the others lie above it), the others independent gammas
 *   the expectation by equal steps in z where P(rate) = Phi(z); the count of others above by adding them one at a time
 * Units: chances; expected place from one. Holds: two units or more, else RangeError. Source: Goldstein H, Spiegelhalter DJ
 * 1996, J R Stat Soc A 159:385 (from memory). Example: two alike: a half each, expected 1.5.
 */
export function rankChances(units: readonly Pick<ShrunkRate, "shape" | "rate">[]): RankChances[] {
  if (units.length < 2) throw new RangeError(`There are ${units.length} units; an order needs two.`);
  return units.map(({ shape, rate }, own) => {
    const ofPlace = Array<number>(units.length).fill(0);
    for (let z = -FAR; z <= FAR; z += STEP) {
      const side = z < 0 ? "lower" : "upper";
      const here = incompleteGammaInverse(shape, side, normalLowerTail(-Math.abs(z))) / rate;
      const weight = STEP * normalDensity(z);
      let above = [1];
      units.forEach((other, at) => {
        if (at === own) return;
        const { upper, lower } = incompleteGamma(other.shape, other.rate * here);
        above = [...above, 0].map((chance, k) => chance * lower + (above[k - 1] ?? 0) * upper);
      });
      for (const [k, chance] of above.entries()) ofPlace[k] = (ofPlace[k] as number) + weight * chance;
    }
    return { ofPlace, expected: ofPlace.reduce((sum, chance, k) => sum + (k + 1) * chance, 0) };
  });
}
