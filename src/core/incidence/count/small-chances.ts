export interface CountDistribution {
  readonly chance: (count: number) => number;
  readonly atMost: (count: number) => number;
  readonly atLeast: (count: number) => number;
}

/** Chances this near count as equal: the other tail's equal count must not fall out by a rounding. As in R. */
const AS_GOOD_AS_EQUAL = 1 + 1e-7;

/**
 * Two-sided chance by small chances: all counts no more likely than the one seen, on both sides.
 * Works for any count whose chances rise to one peak and fall, so the other tail is found by halving.
 */
export function smallChances(seen: number, mean: number, largest: number, law: CountDistribution): number {
  const bound = law.chance(seen) * AS_GOOD_AS_EQUAL;
  if (seen === mean) return 1;
  if (seen < mean) {
    // the smallest count above the peak that is no more likely
    let low = Math.ceil(mean) - 1;
    let high = Math.ceil(2 * mean - seen);
    while (high <= largest && law.chance(high) > bound) high = high * 2 + 1;
    high = Math.min(high, largest + 1);
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (law.chance(middle) <= bound) high = middle;
      else low = middle;
    }
    return Math.min(1, law.atMost(seen) + law.atLeast(high));
  }
  let low = -1;
  let high = Math.floor(mean) + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (law.chance(middle) <= bound) low = middle;
    else high = middle;
  }
  return Math.min(1, law.atLeast(seen) + law.atMost(low));
}
