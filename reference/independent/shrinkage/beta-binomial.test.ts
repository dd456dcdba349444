import { readFileSync } from "node:fs";
import {
  chanceOfEventsToCome,
  chanceRateAbove,
  chanceShareAbove,
  posterior,
  posteriorShare,
  shrinkShares,
  shrunkRateLimits,
  shrunkShareLimits,
} from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";

interface Shares {
  readonly count: readonly number[];
  readonly number: readonly number[];
  readonly alpha: number;
  readonly beta: number;
  readonly logLikelihood: number;
  readonly mean: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly above: readonly number[];
}
type Eight = readonly [number, number, number, number, number, number, number, number];

/** Made by beta-binomial-golden.R beside this file. */
const { gamma, ...sets } = JSON.parse(readFileSync(new URL("beta-binomial-golden.json", import.meta.url), "utf8")) as {
  readonly gamma: readonly Eight[];
} & Readonly<Record<"inserters" | "wards" | "few" | "far", Shares>>;

checkAgainst(
  {
    quantity: "Shares drawn towards their mean: beta-binomial of four sets of units",
    unit: "relative",
    source: "R 4.2.2, lbeta and digamma with optim, qbeta, pbeta (beta-binomial-golden.R)",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 4 * 3 + 4 * (10 + 7 + 4 + 8),
  },
  (compare) => {
    for (const [name, set] of Object.entries(sets)) {
      const found = shrinkShares(set);
      if (found.kind !== "shrunk") continue; // then the count of comparisons fails
      compare(`${name}, alpha`, found.alpha, set.alpha);
      compare(`${name}, beta`, found.beta, set.beta);
      compare(`${name}, log likelihood`, found.logLikelihood, set.logLikelihood);
      for (const [k, unit] of found.units.entries()) {
        const { lower, upper } = shrunkShareLimits(unit, 0.95);
        compare(`${name} ${k + 1}, mean`, unit.mean, set.mean[k] as number);
        compare(`${name} ${k + 1}, lower`, lower, set.lower[k] as number);
        compare(`${name} ${k + 1}, upper`, upper, set.upper[k] as number);
        compare(`${name} ${k + 1}, above`, chanceShareAbove(unit, 0.05), set.above[k] as number);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Two units under a known beta",
    unit: "relative",
    source: "R 4.2.2, qbeta and pbeta at alpha 1.55666559, beta 21.1958546",
    kind: "independent",
    tolerance: 5e-6,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    const nine = posteriorShare(1.55666559, 21.1958546, 9, 61);
    const none = posteriorShare(1.55666559, 21.1958546, 0, 25);
    const { lower, upper } = shrunkShareLimits(nine, 0.95);
    compare("9 of 61", nine.mean, 0.126045946);
    compare("9 of 61, lower", lower, 0.0643528);
    compare("9 of 61, upper", upper, 0.204587);
    compare("9 of 61, above 0.05", chanceShareAbove(nine, 0.05), 0.995462);
    compare("none of 25", none.mean, 0.032598606);
    compare("none of 25, above 0.05", chanceShareAbove(none, 0.05), 0.202504);
  },
);

checkAgainst(
  {
    quantity: "Limits of a shrunken rate, chances above a benchmark and of events to come",
    unit: "relative",
    source: "R 4.2.2, qgamma, pgamma and pnbinom (beta-binomial-golden.R)",
    kind: "independent",
    tolerance: 1e-10,
    relative: true,
    comparisons: 20,
  },
  (compare) => {
    for (const [shape, rate, count, exposure, ...theirs] of gamma) {
      const unit = posterior(shape, rate, count, exposure);
      const place = `Gamma(${shape}, ${rate}), ${count} in ${exposure}`;
      const { lower, upper } = shrunkRateLimits(unit, 0.95);
      compare(`${place}, lower`, lower, theirs[0]);
      compare(`${place}, upper`, upper, theirs[1]);
      compare(`${place}, above`, chanceRateAbove(unit, 2 / exposure), theirs[2]);
      compare(`${place}, four to come`, chanceOfEventsToCome(unit, 4, 1500), theirs[3]);
    }
  },
);

checkAgainst(
  {
    quantity: "Seven events in 4321.5 days under four events' worth of prior, and under Jeffreys'",
    unit: "relative",
    source: "R 4.2.2, qgamma, pgamma and pnbinom",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 7,
  },
  (compare) => {
    const four = posterior(4, 4, 7, 4.3215);
    const jeffreys = shrunkRateLimits(posterior(0.5, 0, 7, 4.3215), 0.95);
    const { lower, upper } = shrunkRateLimits(four, 0.95);
    compare("lower", lower, 0.659876268);
    compare("upper", upper, 2.2099809);
    compare("above 1", chanceRateAbove(four, 1), 0.782744899);
    compare("above 2", chanceRateAbove(four, 2), 0.0579625);
    compare("Jeffreys, lower", jeffreys.lower, 0.724532893);
    compare("Jeffreys, upper", jeffreys.upper, 3.18042264);
    compare("four or more in 1500 days", chanceOfEventsToCome(four, 4, 1.5), 0.153841167);
  },
);
