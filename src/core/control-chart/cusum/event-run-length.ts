import { checkRatio } from "./poisson-cusum.ts";

/**
 * Average number of events to a signal of the log-likelihood CUSUM watched at every event, in closed form.
 *   between events S falls at rate (R - 1) per expected event to zero at the lowest, at an event it rises by r = ln R
 *   L(s), the mean of further events after one that left S at s:  c L'(s) = 1 - L(s) + L(s + r),  L(0) = 1 + L(r),
 *   L = 0 from the decision up, c = (R - 1) / rho, rho the true rate over the base rate
 * On the k-th interval of length r below the decision L(s) = k + 1 + e^(-s/c) P_k(s), P_k a polynomial of degree k; the
 * one constant left is set by L(0) = 1 + L(r). Time to signal is events divided by the true rate.
 * Units: events, the one that signals counted. Holds: R > 1, rho > 0, decision / c at most 25, else RangeError: beyond it
 * the constants cancel. Relative error below 1e-9 up to ten million events, 1e-4 at a hundred thousand million. Source: our own solution of the renewal equation; the values agree with a Markov chain.
 * Example: R 2, decision 3: 68.636 at rho 1 and 11.820 at rho 2.
 */
export function eventsToSignal(ratio: number, decision: number, trueRatio: number): number {
  checkRatio(ratio);
  if (!(ratio > 1 && trueRatio > 0 && decision > 0))
    throw new RangeError(
      `Ratio ${ratio}, true ratio ${trueRatio} and decision ${decision}: watch for a ratio above one.`,
    );
  const rise = Math.log(ratio);
  const c = (ratio - 1) / trueRatio;
  if (decision / c > 25)
    throw new RangeError(`The decision limit ${decision} over ${c} is beyond 25, where digits are lost.`);
  if (rise >= decision) return 1;
  const pieces = solution(rise, decision, c);
  const at = (s: number): Line => {
    const k = Math.min(pieces.length - 1, Math.max(0, Math.ceil((decision - s) / rise) - 1));
    return scaled(valueAt(pieces[k] as Piece, s - (decision - k * rise)), Math.exp(-s / c), k + 1);
  };
  // both L(0) and L(r) are lines in the one unknown A: solve L(0) = 1 + L(r) for it
  const [bottom, first] = [at(0), at(rise)];
  const unknown = (1 + first.constant - bottom.constant) / (bottom.slope - first.slope);
  return 1 + first.constant + first.slope * unknown;
}

/** A number that is linear in the unknown constant. */
interface Line {
  readonly constant: number;
  readonly slope: number;
}

/** Coefficients of P_k in powers of s less the top of its interval, each a line in the unknown. */
type Piece = readonly Line[];

const scaled = (line: Line, factor: number, plus: number): Line => ({
  constant: line.constant * factor + plus,
  slope: line.slope * factor,
});

const valueAt = (piece: Piece, x: number): Line =>
  piece.reduceRight<Line>(
    (sum, line) => ({ constant: sum.constant * x + line.constant, slope: sum.slope * x + line.slope }),
    { constant: 0, slope: 0 },
  );

/** P_0 = A; P_k' (s) = e^(-r/c) / c P_(k-1)(s + r); P_k = P_(k-1) - e^(s/c) at the interval's top s. */
function solution(rise: number, decision: number, c: number): Piece[] {
  const pieces: Piece[] = [[{ constant: 0, slope: 1 }]];
  const factor = Math.exp(-rise / c) / c;
  for (let k = 1; decision - k * rise > 0; k += 1) {
    const before = pieces[k - 1] as Piece;
    // in powers about the interval's own top the shift by r drops out: s + r is as far below the next top
    const higher = before.map((line, power) => scaled(line, factor / (power + 1), 0));
    const top = decision - k * rise;
    const joined = valueAt(before, -rise);
    pieces.push([{ constant: joined.constant - Math.exp(top / c), slope: joined.slope }, ...higher]);
  }
  return pieces;
}

/** Beyond it the closed form loses its digits, and no service waits so long. */
const MOST_EVENTS = 1e7;

/**
 * The decision limit that gives a wanted average number of events between false signals.
 *   h with eventsToSignal(R, h, 1) = events expected a year x years between false signals
 * Units: natural log of a likelihood ratio. Holds: wanted events above 1, at most ten million and those at 25 (R - 1), else
 * RangeError.
 * Source: halving on `eventsToSignal`. Example: R 2, 20 events a year, 5 years: 3.33172.
 */
export function decisionLimit(ratio: number, eventsBetweenFalseSignals: number): number {
  checkRatio(ratio);
  const least = Math.log(ratio);
  const most = 25 * (ratio - 1);
  let high = Math.min(most, 2 * least);
  const falls = (limit: number) => eventsToSignal(ratio, limit, 1) < eventsBetweenFalseSignals;
  if (!(eventsBetweenFalseSignals > 1 && eventsBetweenFalseSignals <= MOST_EVENTS))
    throw new RangeError(
      `${eventsBetweenFalseSignals} events between false signals cannot be had; ask for more than 1, at most ${MOST_EVENTS}.`,
    );
  while (falls(high)) {
    if (high >= most)
      throw new RangeError(
        `${eventsBetweenFalseSignals} events are beyond the limit at ratio ${ratio}; ask for fewer.`,
      );
    high = Math.min(most, high * 1.25);
  }
  let low = least;
  for (let turn = 0; turn < 60; turn += 1) {
    const middle = (low + high) / 2;
    if (falls(middle)) low = middle;
    else high = middle;
  }
  return high;
}
