import {
  type Coefficient,
  coxRegression,
  fineGray,
  firthCox,
  firthLogistic,
  firthPoisson,
  logisticRegression,
  negativeBinomialRegression,
  poissonRegression,
} from "../../../src/core/regression/index.ts";
import { type Compare, checkAgainst } from "../../check.ts";
import { generatedLines, uniformFrom } from "../../generated-lines.ts";
import {
  curvature,
  penalised,
  slope,
  slowCox,
  type SlowCounts,
  slowFineGray,
  slowInverse,
  slowLogistic,
  slowNegativeBinomial,
  slowPoisson,
  slowRobust,
  slowRows,
  slowScores,
} from "./slow-likelihood.ts";

interface Fitted {
  readonly kind: string;
  readonly coefficients?: readonly Coefficient[];
  readonly logLikelihood?: number;
}

/** The slow likelihood must equal ours at our coefficients, be level there, and bend as our errors say. */
function atSummit(
  compare: Compare,
  place: string,
  fit: Fitted,
  slow: (b: readonly number[]) => number,
  bending?: (b: readonly number[]) => number,
): void {
  const b = (fit.coefficients as readonly Coefficient[]).map(({ value }) => value);
  compare(`log likelihood, ${place}`, fit.logLikelihood as number, slow(b));
  for (const [j, { name, standardError }] of (fit.coefficients as readonly Coefficient[]).entries()) {
    compare(`slope along ${name}, ${place}`, 0, slope(slow, b, j));
    if (bending === undefined) continue;
    const variance = slowInverse(curvature(bending, b))[j]?.[j] as number;
    compare(`error of ${name}, ${place}`, standardError, Math.sqrt(variance));
  }
}

const SEEDS = [1, 2, 3, 4];
const designs = (rows: number) =>
  SEEDS.flatMap((seed) =>
    [
      { grain: 0, late: false, strata: false },
      { grain: 6, late: false, strata: true },
      { grain: 6, late: true, strata: false },
    ].map((options) => ({
      place: `seed ${seed}, ${JSON.stringify(options)}`,
      options,
      lines: generatedLines(seed, rows, options),
    })),
  );
const DESIGNS = designs(40);
/** Few enough that all ways to choose the tied events can be written out. */
const SMALL = designs(30);
const inputOf = ({ options, lines }: (typeof DESIGNS)[number]) => ({
  exit: lines.exit,
  event: lines.end.map((end) => (end === 1 ? 1 : 0)),
  ...(options.late ? { entry: lines.entry.map((entry) => entry || -1) } : {}),
  ...(options.strata ? { stratum: lines.group } : {}),
  cluster: lines.patient,
  covariates: lines.covariates.map((values, j) => ({ name: `x${j}`, values })),
});

for (const ties of ["efron", "breslow", "exact"] as const) {
  checkAgainst(
    {
      quantity: `Cox regression on generated lines, ${ties} ties`,
      unit: "absolute",
      source: "the partial likelihood by its definition, differences of fourth order",
      kind: "by-hand",
      tolerance: 1e-6,
      comparisons: 12 * 5,
    },
    (compare) => {
      for (const design of ties === "exact" ? SMALL : DESIGNS) {
        const rows = slowRows(design.lines, design.options.strata);
        const slow = (b: readonly number[]) => slowCox(rows, ties, b);
        atSummit(compare, design.place, coxRegression(inputOf(design), ties), slow, slow);
      }
    },
  );
}

checkAgainst(
  {
    quantity: "Robust error of Cox by patient on generated lines",
    unit: "absolute",
    source: "each line's score by a loop over all event times",
    kind: "by-hand",
    tolerance: 1e-7,
    comparisons: 12 * 2 * 2,
  },
  (compare) => {
    for (const design of DESIGNS) {
      const rows = slowRows(design.lines, design.options.strata);
      for (const ties of ["efron", "breslow"] as const) {
        const fit = coxRegression(inputOf(design), ties);
        const coefficients = fit.kind === "fitted" ? fit.coefficients : [];
        const b = coefficients.map(({ value }) => value);
        const table = curvature((at) => slowCox(rows, ties, at), b);
        const errors = slowRobust(table, slowScores(rows, ties, b), design.lines.patient);
        for (const [j, error] of errors.entries()) {
          compare(`${ties} x${j}, ${design.place}`, coefficients[j]?.robustError as number, error);
        }
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Firth's Cox regression on generated lines",
    unit: "absolute",
    source: "the partial likelihood and the determinant of its curvature, differences of fourth order",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 12 * 2 * 5,
  },
  (compare) => {
    for (const design of DESIGNS) {
      const rows = slowRows(design.lines, design.options.strata);
      for (const ties of ["breslow", "efron"] as const) {
        const slow = (b: readonly number[]) => slowCox(rows, ties, b);
        atSummit(compare, `${ties}, ${design.place}`, firthCox(inputOf(design), ties), penalised(slow), slow);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Fine and Gray's regression on generated lines",
    unit: "absolute",
    source: "every line weighed anew at every event time, differences of fourth order",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 8 * 5,
  },
  (compare) => {
    for (const { place, lines, options } of DESIGNS.filter((design) => !design.options.late)) {
      const rows = slowRows(lines, false);
      const covariates = lines.covariates.map((values, j) => ({ name: `x${j}`, values }));
      const fit = fineGray({ exit: lines.exit, end: lines.end, covariates }, 1);
      const slow = (b: readonly number[]) => slowFineGray(rows, b).value;
      atSummit(compare, `${place} ${options.grain}`, fit, slow);
      const coefficients = fit.kind === "fitted" ? fit.coefficients : [];
      const b = coefficients.map(({ value }) => value);
      const errors = slowRobust(
        curvature(slow, b),
        slowFineGray(rows, b).scores,
        rows.map((_, i) => i),
      );
      for (const [j, error] of errors.entries()) {
        compare(`error of x${j}, ${place}`, coefficients[j]?.standardError as number, error);
      }
    }
  },
);

function counts(seed: number, most: number): SlowCounts {
  const uniform = uniformFrom(seed);
  const rows = Array.from({ length: 40 }, () => {
    const x = [uniform() < 0.4 ? 1 : 0, uniform() * 3];
    const exposure = 1 + uniform() * 4;
    // a gamma-like spread by the product of two uniform draws
    const mean =
      exposure * Math.exp(-0.5 + 0.6 * (x[0] as number) - 0.2 * (x[1] as number)) * 4 * uniform() * uniform();
    let count = 0;
    for (let left = mean + Math.log(1 - uniform()); left > 0 && count < most; left += Math.log(1 - uniform()))
      count += 1;
    return { x, exposure, count };
  });
  return { count: rows.map((r) => r.count), exposure: rows.map((r) => r.exposure), x: rows.map((r) => r.x) };
}
const columns = (data: SlowCounts) => [0, 1].map((j) => ({ name: `x${j}`, values: data.x.map((x) => x[j] as number) }));

checkAgainst(
  {
    quantity: "Poisson and logistic regression on generated counts, plain and Firth",
    unit: "absolute",
    source: "the likelihoods by their definitions and the determinant of their curvature, differences of fourth order",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 4 * 4 * 7,
  },
  (compare) => {
    for (const seed of SEEDS) {
      const data = counts(seed, 50);
      const input = { count: data.count, exposure: data.exposure, covariates: columns(data) };
      const poisson = (b: readonly number[]) => slowPoisson(data, b);
      atSummit(compare, `Poisson ${seed}`, poissonRegression(input), poisson, poisson);
      atSummit(compare, `Firth Poisson ${seed}`, firthPoisson(input), penalised(poisson), poisson);
      const outcome = counts(seed, 1);
      const asked = { count: outcome.count, covariates: columns(outcome) };
      const logistic = (b: readonly number[]) => slowLogistic(outcome, b);
      atSummit(compare, `logistic ${seed}`, logisticRegression(asked), logistic, logistic);
      atSummit(compare, `Firth logistic ${seed}`, firthLogistic(asked), penalised(logistic), logistic);
    }
  },
);

checkAgainst(
  {
    quantity: "Negative binomial regression on generated counts",
    unit: "absolute",
    source: "the likelihood by its definition, differences of fourth order",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 4 * 5,
  },
  (compare) => {
    for (const seed of SEEDS) {
      const data = counts(seed + 10, 50);
      const fit = negativeBinomialRegression({ count: data.count, exposure: data.exposure, covariates: columns(data) });
      if (fit.kind !== "fitted") continue; // then the count of comparisons fails
      const coefficients = [...fit.coefficients, { name: "log theta", value: Math.log(fit.theta), standardError: 0 }];
      const slow = (b: readonly number[]) => slowNegativeBinomial(data, b);
      atSummit(compare, `seed ${seed}`, { ...fit, coefficients }, slow);
    }
  },
);
