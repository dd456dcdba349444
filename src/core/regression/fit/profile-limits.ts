import { normalQuantile } from "../../distribution/index.ts";
import type { CoefficientTest } from "./answer.ts";
import { maximise, type Objective, type Point } from "./newton.ts";

/** Further than this from the estimate, in standard deviations of the covariate, a limit is called infinite. */
const FURTHEST = 60;

interface Profile {
  readonly value: number;
  readonly slope: number;
  readonly place: Float64Array;
}

/**
 * Profile (penalised) likelihood limits of one coefficient, and the likelihood-ratio test that it is zero.
 *   the b at which max over the others of l(b, others) = l_max - z^2 / 2, on either side
 * Found by Newton steps on the slope of the profile, kept inside a bracket. Infinite where the profile never falls so
 * far: separation without a penalty.
 * Holds: a settled maximum; level 0 to 1, else RangeError.
 * Source: Venzon DJ, Moolgavkar SH 1988, J R Stat Soc C 37:87; Heinze G, Schemper M 2002, Stat Med 21:2409.
 * Example: one success in two tries, Firth: the logistic intercept 0 has limits alike on both sides.
 */
export function profileTest(
  objective: Objective,
  top: { readonly place: Float64Array; readonly point: Point },
  coordinate: number,
  spread: number,
  level: number,
  penalised: boolean,
): CoefficientTest {
  if (!(level > 0 && level < 1)) throw new RangeError(`The level is ${level}; give a share between 0 and 1.`);
  const z = normalQuantile((1 + level) / 2);
  const target = top.point.value - (z * z) / 2;
  const estimate = top.place[coordinate] as number;
  const profileAt = (value: number, from: Float64Array): Profile | undefined => {
    const start = Float64Array.from(from);
    start[coordinate] = value;
    const found = maximise(objective, { start, fixed: coordinate, penalised });
    if (found.kind !== "settled") return undefined;
    return {
      value: found.point.value - target,
      slope: found.point.score[coordinate] as number,
      place: found.place,
    };
  };
  const limit = (side: 1 | -1): number => {
    let inner = estimate;
    let reach = z * spread;
    let outer = estimate + side * reach;
    let last = profileAt(outer, top.place);
    while (last === undefined || last.value > 0) {
      if (last !== undefined) inner = outer;
      reach *= 1.6;
      if (reach > FURTHEST) return side * Infinity;
      outer = estimate + side * reach;
      last = profileAt(outer, last?.place ?? top.place);
    }
    let place = last.place;
    let guess = outer - last.value / last.slope;
    for (let step = 0; step < 100; step += 1) {
      if (!((guess - inner) * side > 0 && (outer - guess) * side > 0)) guess = (inner + outer) / 2;
      const found = profileAt(guess, place);
      if (found === undefined) return Number.NaN;
      place = found.place;
      if (found.value > 0) inner = guess;
      else outer = guess;
      const next = guess - found.value / found.slope;
      if (Math.abs(next - guess) <= 1e-11 * (1 + Math.abs(guess))) return next;
      guess = next;
    }
    return guess;
  };
  const atZero = profileAt(0, top.place);
  const statistic = atZero === undefined ? Number.NaN : Math.max(0, -2 * (atZero.value + target - top.point.value));
  return { low: limit(-1), high: limit(1), statistic };
}
