import { ascendingOrder } from "../risk/order.ts";
import { lastAtOrBefore } from "./step.ts";

/** One row for every stretch a line spent in a state: blocked or open, at home or on the ward, and out in the end. */
export interface StateStays {
  /** When the line came into the state, or under observation in it. */
  readonly entry: ArrayLike<number>;
  readonly exit: ArrayLike<number>;
  /** 0, 1, ... for the states. */
  readonly from: ArrayLike<number>;
  /** The state it went to; the same state where it was watched no longer. */
  readonly to: ArrayLike<number>;
}

export interface StateCurve {
  readonly states: number;
  readonly time: Float64Array;
  /** Chance of each state from each time on, at [place * states + state]; they add to one. */
  readonly occupation: Float64Array;
  readonly variance: Float64Array;
  /** Nelson-Aalen sums of transitions over those who could make them, at [(place * states + from) * states + to]. */
  readonly hazard: Float64Array;
}

/**
 * Aalen-Johansen chances of being in each state, which may be left and come back to: a line that blocks and is cleared.
 *   p(t) = p(u) product over times of (I + dA), dA_gh = d_gh / n_g, its rows adding to nothing
 *   variance: V(t) = (I + dA)' V (I + dA) + sum over g of p_g^2 cov dA_g, a multinomial of those in state g
 * Starts in one state at `since`; a stay counts from the entry it was seen from.
 * Holds: a chance that hangs on the state alone, not on how it was reached (Markov); for the share in each state also
 * without that. RangeError for rows that cannot be used. O(rows log rows + times x states^3).
 * Source: Aalen OO, Johansen S 1978, Scand J Stat 5:141; Andersen PK and others 1993, IV.4; Datta S, Satten GA 2001.
 * Example: in intensive care without a ventilator at the start, out by day 10: 0.752635.
 */
export function stateOccupation(stays: StateStays, start: number, since = 0): StateCurve {
  const states = checkStays(stays, start);
  const { entry, exit, from, to } = stays;
  const leaving = ascendingOrder(exit);
  const entering = ascendingOrder(entry);
  const rows = leaving.length;
  const present = new Float64Array(states);
  const time: number[] = [];
  const occupation: number[] = [];
  const variance: number[] = [];
  const hazard: number[] = [];
  let now = new Float64Array(states);
  now[start] = 1;
  let spread = new Float64Array(states * states);
  const sums = new Float64Array(states * states);
  const moved = new Float64Array(states * states);
  for (let k = 0, entered = 0; k < rows;) {
    const moment = exit[leaving[k] as number] as number;
    for (; entered < rows && (entry[entering[entered] as number] as number) < moment; entered += 1) {
      const state = from[entering[entered] as number] as number;
      present[state] = (present[state] as number) + 1;
    }
    moved.fill(0);
    let last = k;
    let any = false;
    for (; last < rows && exit[leaving[last] as number] === moment; last += 1) {
      const row = leaving[last] as number;
      if (to[row] === from[row]) continue;
      const at = (from[row] as number) * states + (to[row] as number);
      moved[at] = (moved[at] as number) + 1;
      any = true;
    }
    if (any && moment > since) {
      const step = stepOf(moved, present, states);
      for (let at = 0; at < sums.length; at += 1) {
        const own = at % states === Math.floor(at / states);
        if (!own) sums[at] = (sums[at] as number) + (step[at] as number);
      }
      spread = spreadAfter(spread, now, step, present, states);
      now = times(now, step, states);
      time.push(moment);
      occupation.push(...now);
      for (let h = 0; h < states; h += 1) variance.push(Math.max(0, spread[h * states + h] as number));
      hazard.push(...sums);
    }
    for (; k < last; k += 1) {
      const state = from[leaving[k] as number] as number;
      present[state] = (present[state] as number) - 1;
    }
  }
  return {
    states,
    time: Float64Array.from(time),
    occupation: Float64Array.from(occupation),
    variance: Float64Array.from(variance),
    hazard: Float64Array.from(hazard),
  };
}

/** I + dA. */
function stepOf(moved: Float64Array, present: Float64Array, states: number): Float64Array {
  const step = new Float64Array(states * states);
  for (let g = 0; g < states; g += 1) {
    let gone = 0;
    for (let h = 0; h < states; h += 1) {
      const share = (moved[g * states + h] as number) / Math.max(1, present[g] as number);
      step[g * states + h] = share;
      gone += share;
    }
    step[g * states + g] = 1 - gone;
  }
  return step;
}

function times(row: Float64Array, table: Float64Array, states: number): Float64Array<ArrayBuffer> {
  const result = new Float64Array(states);
  for (let g = 0; g < states; g += 1) {
    for (let h = 0; h < states; h += 1) {
      result[h] = (result[h] as number) + (row[g] as number) * (table[g * states + h] as number);
    }
  }
  return result;
}

function spreadAfter(
  spread: Float64Array,
  before: Float64Array,
  step: Float64Array,
  present: Float64Array,
  states: number,
): Float64Array<ArrayBuffer> {
  const result = new Float64Array(states * states);
  for (let h = 0; h < states; h += 1) {
    for (let m = 0; m < states; m += 1) {
      let sum = 0;
      for (let g = 0; g < states; g += 1) {
        const stay = step[g * states + h] as number;
        for (let l = 0; l < states; l += 1) {
          sum += stay * (spread[g * states + l] as number) * (step[l * states + m] as number);
        }
        // one draw of those in state g: share p goes to h, and n draws are averaged
        const count = present[g] as number;
        if (count === 0) continue;
        const both = (h === m ? stay : 0) - stay * (step[g * states + m] as number);
        sum += ((before[g] as number) ** 2 * both) / count;
      }
      result[h * states + m] = sum;
    }
  }
  return result;
}

/** Chances of the states at one moment with their errors; before the first transition all are where they started. */
export function occupationAt(
  curve: StateCurve,
  moment: number,
  start: number,
): { readonly occupation: readonly number[]; readonly standardError: readonly number[] } {
  const place = lastAtOrBefore(curve.time, moment);
  const states = Array.from({ length: curve.states }, (_, state) => state);
  if (place < 0)
    return { occupation: states.map((state) => Number(state === start)), standardError: states.map(() => 0) };
  return {
    occupation: states.map((state) => curve.occupation[place * curve.states + state] as number),
    standardError: states.map((state) => Math.sqrt(curve.variance[place * curve.states + state] as number)),
  };
}

function checkStays({ entry, exit, from, to }: StateStays, start: number): number {
  const rows = exit.length;
  for (const [name, column] of Object.entries({ entry, from, to })) {
    if (column.length !== rows) {
      throw new RangeError(`There are ${rows} exits and ${column.length} of ${name}; give one of each for every row.`);
    }
  }
  const whole = (value: number) => Number.isInteger(value) && value >= 0 && value < 100;
  let states = start + 1;
  for (let i = 0; i < rows; i += 1) {
    const [a, b] = [from[i] as number, to[i] as number];
    if (!whole(a) || !whole(b)) {
      throw new RangeError(`Row ${i + 1} goes from state ${a} to ${b}; both are whole numbers from zero.`);
    }
    if (!((entry[i] as number) < (exit[i] as number))) {
      throw new RangeError(`Row ${i + 1} enters at ${entry[i]} and leaves at ${exit[i]}; entry comes first.`);
    }
    states = Math.max(states, a + 1, b + 1);
  }
  if (!whole(start)) throw new RangeError(`The state to start in is ${start}; it is a whole number from zero.`);
  return states;
}
