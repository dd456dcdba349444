import { poissonAtMost, poissonChance } from "../../distribution/index.ts";
import { meanSteps } from "./linear-system.ts";
import { riskWeight } from "./outcome-cusum.ts";

/**
 * Average run length of a count CUSUM whose reference and decision lie on one grid: exact, by a Markov chain.
 *   L = (I - Q)^-1 1 over the grid points below the decision, signal at S >= decision
 * Units: periods. Holds: reference x grid, decision x grid and head start x grid whole, at most 1500 states, else
 * RangeError. Source: Brook and Evans 1972, Biometrika 59:539 (from memory).
 * Example: mean 1, reference 1.5, decision 4, grid 2: 121.952316.
 */
export function countCusumRunLength(
  mean: number,
  design: {
    readonly reference: number;
    readonly decision: number;
    readonly gridPerEvent: number;
    readonly headStart?: number;
  },
): number {
  const grid = design.gridPerEvent;
  const onGrid = (value: number) => {
    const steps = Math.round(value * grid);
    if (!(Math.abs(steps - value * grid) < 1e-9))
      throw new RangeError(`${value} is not on a grid of ${grid} to the event; choose a finer grid.`);
    return steps;
  };
  const [fall, states, start] = [onGrid(design.reference), onGrid(design.decision), onGrid(design.headStart ?? 0)];
  checkStates(states);
  const lengths = meanSteps(states, (from, add) => {
    // all counts that bring the sum to zero or below
    const toZero = Math.floor((fall - from) / grid);
    add(0, poissonAtMost(toZero, mean));
    for (let count = Math.max(0, toZero + 1); from + count * grid - fall < states; count += 1)
      add(from + count * grid - fall, poissonChance(count, mean));
  });
  return lengths[start] as number;
}

/**
 * Average run length of a Bernoulli CUSUM on whole numbers: exact, by a Markov chain.
 *   up by `upStep` with chance p, down by one without, reflected at zero, signal at S >= decision
 * Units: lines. Holds: whole steps, at most 1500 states, 0 < p < 1, else RangeError.
 * Source: Reynolds and Stoumbos 1999 (from memory). Example: 0.02, up 34, decision 80: 556.541439.
 */
export function bernoulliRunLength(
  chance: number,
  design: { readonly upStep: number; readonly decision: number; readonly headStart?: number },
): number {
  if (!(chance > 0 && chance < 1)) throw new RangeError(`The chance is ${chance}; it must lie between zero and one.`);
  checkStates(design.decision);
  const lengths = meanSteps(design.decision, (from, add) => {
    add(Math.max(0, from - 1), 1 - chance);
    if (from + design.upStep < design.decision) add(from + design.upStep, chance);
  });
  return lengths[design.headStart ?? 0] as number;
}

/**
 * Average run length of a risk-adjusted CUSUM on a given mix of predicted risks, by a Markov chain on a grid.
 *   states at 0 and at the middles of equal cells; each line draws its risk from the mix, its event at the true odds
 * Units: lines. Holds: weights of the mix above zero, cells from 20 to 1500, else RangeError; off by about half a
 * per cent at 400 cells and two per cent at 100, unevenly, since the mean jumps at the decision.
 * Source: Brook and Evans 1972; Steiner and others 2000. Example: one risk 0.1, R 2, decision 2: about 240 lines.
 */
export function riskAdjustedRunLength(
  mix: readonly { readonly risk: number; readonly weight: number }[],
  design: {
    readonly oddsRatio: number;
    readonly decision: number;
    readonly trueOddsRatio: number;
    readonly cells: number;
  },
): number {
  const { oddsRatio, decision, trueOddsRatio, cells } = design;
  if (!(Number.isInteger(cells) && cells >= 20)) throw new RangeError(`There are ${cells} cells; use 20 to 1500.`);
  checkStates(cells);
  const total = mix.reduce((sum, part) => sum + part.weight, 0);
  if (!(total > 0)) throw new RangeError("The mix of risks is empty; give at least one with a weight above zero.");
  const width = (2 * decision) / (2 * cells - 1); // half a cell at zero, so that zero is a state of its own
  const moves = mix.flatMap(({ risk, weight }) => {
    const odds = (trueOddsRatio * risk) / (1 - risk);
    const chance = odds / (1 + odds);
    return [
      { step: riskWeight({ event: true, risk }, oddsRatio) / width, chance: (chance * weight) / total },
      { step: riskWeight({ event: false, risk }, oddsRatio) / width, chance: ((1 - chance) * weight) / total },
    ];
  });
  const lengths = meanSteps(cells, (from, add) => {
    for (const { step, chance } of moves) {
      // a move that ends between two states is shared between them, so that its mean is kept
      const to = Math.max(0, from + step);
      const below = Math.floor(to);
      const share = to - below;
      if (below < cells) add(below, chance * (1 - share));
      if (below + 1 < cells) add(below + 1, chance * share);
    }
  });
  return lengths[0] as number;
}

function checkStates(states: number): void {
  if (!(Number.isInteger(states) && states >= 1 && states <= 1500))
    throw new RangeError(`The chain has ${states} states; it must have 1 to 1500. Choose a coarser grid.`);
}
