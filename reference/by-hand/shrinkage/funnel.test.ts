import {
  falseDiscoveryChances,
  overdispersion,
  targetScore,
  targetWithout,
  widenedScore,
} from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";
import { uniformFrom } from "../../generated-lines.ts";

/** Chance of fewer than x events and half of x, its terms multiplied up from none. */
function midBelow(x: number, mean: number): number {
  let [term, sum] = [Math.exp(-mean), 0];
  for (let k = 0; k < x; k += 1) {
    sum += term;
    term *= mean / (k + 1);
  }
  return sum + term / 2;
}

/** The normal curve added up by Simpson's rule from twelve below. */
function normalBelow(z: number): number {
  const steps = 4000;
  const width = (z + 12) / steps;
  let sum = 0;
  for (let k = 0; k <= steps; k += 1)
    sum += (k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2) * Math.exp(-((-12 + k * width) ** 2) / 2);
  return (sum * width) / 3 / Math.sqrt(2 * Math.PI);
}

const generated = (seed: number) => {
  const uniform = uniformFrom(seed);
  return Array.from({ length: 15 }, () => {
    const expected = 0.5 + 20 * uniform();
    return { expected, observed: Math.floor(2 * expected * uniform()), error: 0.2 + uniform() };
  });
};

checkAgainst(
  {
    quantity: "Scores of generated units against their targets",
    unit: "chance, or standard errors",
    source: "Poisson terms multiplied up, the normal curve by Simpson's rule",
    kind: "by-hand",
    tolerance: 1e-10,
    comparisons: 45,
  },
  (compare) => {
    for (const [k, { observed, expected }] of generated(31).entries()) {
      const [pearson, root] = (["Pearson", "square root"] as const).map((score) =>
        targetScore(observed, expected, score),
      ) as [number, number];
      compare(`unit ${k}, mid-P`, normalBelow(targetScore(observed, expected, "mid-P")), midBelow(observed, expected));
      compare(`unit ${k}, Pearson`, expected + pearson * Math.sqrt(expected), observed);
      compare(`unit ${k}, square root`, (root / 2 + Math.sqrt(expected)) ** 2, observed);
    }
  },
);

checkAgainst(
  {
    quantity: "Spread, widened scores and false flags of generated units",
    unit: "as each quantity",
    source: "written out by definition",
    kind: "by-hand",
    tolerance: 1e-11,
    comparisons: 4 * (2 + 15 * 4),
  },
  (compare) => {
    for (const seed of [32, 33, 34, 35]) {
      const units = generated(seed);
      const z = units.map(({ observed, expected }) => (2 * (observed - expected)) / Math.sqrt(expected));
      const errors = units.map(({ error }) => error);
      const spread = { ...overdispersion(z, errors, { winsorise: 0.1, fewest: 1, cut: "quantile" }), widen: true };
      // type 7 by definition: the place 1 + (n - 1) p on a line through the ordered values
      const ordered = [...z].sort((a, b) => a - b);
      const onLine = (p: number) => {
        const place = (ordered.length - 1) * p;
        const [below, above] = [ordered[Math.floor(place)] as number, ordered[Math.ceil(place)] as number];
        return below * (Math.ceil(place) - place || 1) + above * (place - Math.floor(place));
      };
      const drawnIn = z.map((value) => Math.max(onLine(0.1), Math.min(onLine(0.9), value)));
      const phi = drawnIn.reduce((sum, value) => sum + value ** 2, 0) / 15;
      compare(`seed ${seed}, phi`, spread.dispersion, phi);
      const [one, two] = [-2, -4].map((power) => errors.reduce((sum, error) => sum + error ** power, 0)) as [
        number,
        number,
      ];
      const tau = Math.max(0, (15 * phi - 14) / (one - two / one));
      compare(`seed ${seed}, tau squared`, spread.between, tau);
      const chances = units.map(({ error }) => error / 1.3);
      const raised = falseDiscoveryChances(chances);
      const [count, exposure] = [units.map(({ observed }) => observed), units.map(({ expected }) => expected)];
      for (const [k, value] of z.entries()) {
        const error = errors[k] as number;
        const additive = (value * error) / Math.sqrt(error ** 2 + tau);
        compare(`seed ${seed}, unit ${k}, additive`, widenedScore(value, error, spread, "additive"), additive);
        const multiplied = value / Math.sqrt(Math.max(1, phi));
        compare(
          `seed ${seed}, unit ${k}, multiplied`,
          widenedScore(value, error, spread, "multiplicative"),
          multiplied,
        );
        // the least over all chances no smaller of: chance x units / number not above it
        const candidates = chances
          .filter((chance) => chance >= (chances[k] as number))
          .map((chance) => (chance * 15) / chances.filter((other) => other <= chance).length);
        compare(`seed ${seed}, unit ${k}, raised`, raised[k] as number, Math.min(1, ...candidates));
        const others = units.filter((_, at) => at !== k);
        compare(
          `seed ${seed}, unit ${k}, the others`,
          targetWithout(count, exposure, k),
          others.reduce((sum, { observed }) => sum + observed, 0) /
            others.reduce((sum, { expected }) => sum + expected, 0),
        );
      }
    }
  },
);
