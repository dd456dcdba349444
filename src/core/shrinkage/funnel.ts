/** Chances of 0, 1, 2, ... from the first to the last that is not lost in rounding; `first` is the lowest kept. */
interface Counts {
  readonly first: number;
  readonly chance: readonly number[];
}

/** Below this share of the likeliest count a chance adds nothing to a sum of chances. */
const LOST = 1e-22;

/**
 * Chances from the likeliest count outwards by their ratios, then scaled to add to one: no special function, and no
 * loss at large means.
 */
function around(mode: number, most: number, ratioUp: (count: number) => number): Counts {
  const up: number[] = [];
  for (let r = mode, chance = 1; r < most && chance > LOST; r += 1) {
    chance *= ratioUp(r);
    up.push(chance);
  }
  const down: number[] = [];
  for (let r = mode, chance = 1; r > 0 && chance > LOST; r -= 1) {
    chance /= ratioUp(r - 1);
    down.push(chance);
  }
  const chance = [...down.reverse(), 1, ...up];
  const total = chance.reduce((a, b) => a + b, 0);
  return { first: mode - down.length, chance: chance.map((value) => value / total) };
}

function limitsOf({ first, chance }: Counts, shares: readonly number[]): number[] {
  return shares.map((share) => {
    if (!(share > 0 && share < 1)) throw new RangeError(`The share is ${share}; give a share between 0 and 1.`);
    let below = 0;
    for (const [k, here] of chance.entries()) {
      if (below + here >= share) return Math.max(0, first + k - (below + here - share) / here);
      below += here;
    }
    return first + chance.length - 1;
  });
}

/**
 * Limits of a funnel for a count with a given expectation, smoothed between whole counts.
 *   r the smallest count with F(r) >= p, limit = r - (F(r) - p) / (F(r) - F(r - 1)), cut at 0
 * Divide by the expectation for a ratio, or by the time at risk for a rate.
 * Holds: expected above zero, shares such as 0.001, 0.025, 0.975, 0.999 between 0 and 1, else RangeError.
 * Source: Spiegelhalter DJ 2005, Stat Med 24:1185, appendix A.1.1.
 * Example: expected 10: 1.22053, 3.77519, 16.15995, 20.66200.
 */
export function poissonFunnel(expected: number, shares: readonly number[]): number[] {
  if (!(expected > 0 && expected < Infinity)) {
    throw new RangeError(`${expected} events are expected; a funnel needs a finite number above zero.`);
  }
  return limitsOf(
    around(Math.floor(expected), Infinity, (r) => expected / (r + 1)),
    shares,
  );
}

/**
 * The same for a number of `size` each with the same chance. Divide by `size` for a proportion.
 * Holds: size a whole number above zero, chance between 0 and 1, else RangeError. Source: as `poissonFunnel`.
 * Example: 250 at 0.05: 2.72079, 5.65108, 19.17458, 23.86042.
 */
export function binomialFunnel(size: number, chance: number, shares: readonly number[]): number[] {
  if (!(Number.isInteger(size) && size > 0 && chance > 0 && chance < 1)) {
    throw new RangeError(
      `${size} at a chance of ${chance}: give a whole number above zero and a share between 0 and 1.`,
    );
  }
  const odds = chance / (1 - chance);
  return limitsOf(
    around(Math.floor(size * chance), size, (r) => ((size - r) / (r + 1)) * odds),
    shares,
  );
}

export interface Overdispersion {
  /** Mean squared z of the units after winsorising. */
  readonly dispersion: number;
  /** Widen above this: 1 + 2 sqrt(2 / units). */
  readonly threshold: number;
  readonly widen: boolean;
  /** Extra variance between units, on the scale of the errors: the additive form, which is preferred. */
  readonly between: number;
}

/**
 * Whether units spread more than chance allows, and by how much the funnel is to be widened.
 *   phi = mean z_w^2, the extreme share of z on each side set to the next one in (order statistics), or to the quantile
 *   between two of them (type 7: 1 + (I - 1) p); the two differ in the third digit, so one is fixed and named
 *   multiplicative: z / sqrt phi; additive: z s / sqrt(s^2 + tau^2),
 *   tau^2 = max(0, (I phi - (I - 1)) / (sum w - sum w^2 / sum w)), w = 1 / s^2
 * `fewest` units are needed before anything is widened. Holds: z and s alike in number, s above zero, share below one
 * half, else RangeError. Source: Spiegelhalter DJ 2005, Stat Med 24:1185, sections 5 and A.3.
 * Example: z = -3, 3 twice over, nothing winsorised: phi 9, threshold 2.414.
 */
export function overdispersion(
  z: readonly number[],
  standardError: readonly number[],
  asked: { readonly winsorise: number; readonly fewest: number; readonly cut?: "order statistic" | "quantile" },
): Overdispersion {
  const units = z.length;
  if (units === 0 || standardError.length !== units || standardError.some((s) => !(s > 0))) {
    throw new RangeError(
      `There are ${units} z and ${standardError.length} errors; give one error above zero for each.`,
    );
  }
  if (!(asked.winsorise >= 0 && asked.winsorise < 0.5)) {
    throw new RangeError(`The share winsorised is ${asked.winsorise}; give one from 0 to below one half.`);
  }
  const sorted = [...z].sort((a, b) => a - b);
  const place = asked.winsorise * (asked.cut === "quantile" ? units - 1 : units);
  const at = (rank: number) => sorted[Math.min(units - 1, Math.max(0, rank))] as number;
  const cut = Math.floor(place);
  const share = asked.cut === "quantile" ? place - cut : 0;
  const low = at(cut) + share * (at(cut + 1) - at(cut));
  const high = at(units - 1 - cut) - share * (at(units - 1 - cut) - at(units - 2 - cut));
  const dispersion = z.reduce((sum, value) => sum + Math.min(high, Math.max(low, value)) ** 2, 0) / units;
  const threshold = 1 + 2 * Math.sqrt(2 / units);
  const weights = standardError.map((s) => 1 / (s * s));
  const total = weights.reduce((a, b) => a + b, 0);
  const square = weights.reduce((a, b) => a + b * b, 0);
  return {
    dispersion,
    threshold,
    widen: units >= asked.fewest && dispersion > threshold,
    between: units > 1 ? Math.max(0, (units * dispersion - (units - 1)) / (total - square / total)) : 0,
  };
}
