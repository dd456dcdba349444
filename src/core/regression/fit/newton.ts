import { cholesky, type Factor, solve } from "../linear/cholesky.ts";

/** A log likelihood, its gradient and its information at one place. */
export interface Point {
  readonly value: number;
  readonly score: Float64Array;
  /** Observed or expected: a positive definite table the steps are taken by. */
  readonly information: Float64Array;
}

/** Undefined where the value is not a finite number. */
export type Objective = (place: Float64Array) => Point | undefined;

export type Maximum =
  | { readonly kind: "settled"; readonly place: Float64Array; readonly point: Point; readonly steps: number }
  | { readonly kind: "dependent"; readonly column: number }
  | { readonly kind: "running off"; readonly columns: readonly number[]; readonly point: Point }
  | { readonly kind: "not settled"; readonly steps: number };

export interface Climb {
  readonly start: Float64Array;
  /** The objective at the start, where it is known already. */
  readonly known?: Point;
  /** A coordinate that stays as it starts, for a profile. */
  readonly fixed?: number;
  /** A penalised likelihood always has its maximum; a plain one may rise for ever. */
  readonly penalised?: boolean;
}

const MOST_STEPS = 400;
/** Longest step in one coordinate, in standard deviations of its covariate. */
const LONGEST = 5;
/**
 * Settled with the step that is no longer than this. True Newton steps square what is left, so theirs may be longer;
 * under a penalty the information is not the whole curvature, and each step leaves a share.
 */
const STILL = { plain: 1e-7, penalised: 1e-11 };
/** A true Newton step as short as this is taken, but the point before it stands for the one after. */
const NO_STEP = 1e-9;
/** A value that gains less than this share of itself is flat; if the steps are still long there, it never turns. */
const FLAT = 1e-10;
const LONG_WHEN_FLAT = 0.02;

/**
 * The maximum of a log likelihood by Newton steps, halved until the value does not fall.
 *   step = I^-1 U, no coordinate more than 5 standard deviations at once
 * A likelihood that is flat while its steps stay long is running off: its covariates are those that still move.
 * Source: McCullagh and Nelder 1989, 2.5; for running off, Albert A, Anderson JA 1984, Biometrika 71:1.
 * Example: two of four events: the logistic intercept settles at 0.
 */
export function maximise(objective: Objective, climb: Climb): Maximum {
  const size = climb.start.length;
  let place = Float64Array.from(climb.start);
  let point = climb.known ?? objective(place);
  if (point === undefined) return { kind: "not settled", steps: 0 };
  const still = climb.penalised === true ? STILL.penalised : STILL.plain;
  let gain = Infinity;
  let moving: number[] = [];
  for (let steps = 0; steps < MOST_STEPS; steps += 1) {
    const factor = factorWithout(point.information, size, climb.fixed);
    if ("dependent" in factor) {
      return steps === 0 || climb.penalised === true
        ? { kind: "dependent", column: factor.dependent }
        : { kind: "running off", columns: moving, point };
    }
    const score = Float64Array.from(point.score);
    if (climb.fixed !== undefined) score[climb.fixed] = 0;
    const step = solve(factor, score);
    const longest = step.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const size1 = 1 + place.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    if (longest <= still * size1) {
      const last = Float64Array.from(place, (value, j) => value + (step[j] as number));
      if (climb.penalised !== true && longest <= NO_STEP * size1) {
        return { kind: "settled", place: last, point, steps: steps + 1 };
      }
      const there = objective(last);
      return there === undefined
        ? { kind: "settled", place, point, steps }
        : { kind: "settled", place: last, point: there, steps: steps + 1 };
    }
    moving = [...step.keys()].filter((j) => Math.abs(step[j] as number) > longest / 10);
    if (climb.penalised !== true && gain <= FLAT * (1 + Math.abs(point.value)) && longest > LONG_WHEN_FLAT) {
      return { kind: "running off", columns: moving, point };
    }
    const before: Point = point;
    let share = Math.min(1, LONGEST / longest);
    let moved: Float64Array<ArrayBuffer> = place;
    let next: Point | undefined;
    // rounding alone may lower the value near the top
    const floor = before.value - 1e-13 * (1 + Math.abs(before.value));
    for (let halving = 0; halving < 40; halving += 1, share /= 2) {
      const s = share;
      moved = Float64Array.from(place, (value, j) => value + s * (step[j] as number));
      next = objective(moved);
      if (next !== undefined && next.value >= floor) break;
      next = undefined;
    }
    if (next === undefined) {
      return longest <= 1e-6 * size1
        ? { kind: "settled", place, point: before, steps }
        : { kind: "not settled", steps };
    }
    gain = next.value - before.value;
    place = moved;
    point = next;
  }
  return { kind: "not settled", steps: MOST_STEPS };
}

/** The factor with one coordinate taken out: its row and column become those of the unit table. */
function factorWithout(
  information: Float64Array,
  size: number,
  fixed?: number,
): Factor | { readonly dependent: number } {
  if (fixed === undefined) return cholesky(information, size);
  const table = Float64Array.from(information);
  for (let k = 0; k < size; k += 1) {
    table[fixed * size + k] = 0;
    table[k * size + fixed] = 0;
  }
  table[fixed * size + fixed] = 1;
  return cholesky(table, size);
}
