import { type CoxFit, coxRegression } from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { generatedLines } from "../../generated-lines.ts";
import { type SlowRow, slowRows } from "./slow-likelihood.ts";

/** All pairs, each weighed by the product of its rows' weights. */
function slowConcordance(rows: readonly SlowRow[], score: readonly number[], weight: readonly number[]): number {
  let right = 0;
  let all = 0;
  for (const [i, first] of rows.entries()) {
    if (first.end !== 1) continue;
    for (const [j, second] of rows.entries()) {
      const outlives = second.exit > first.exit || (second.exit === first.exit && second.end !== 1);
      if (i === j || second.stratum !== first.stratum || !outlives || !(second.entry < first.exit)) continue;
      const [mine, theirs] = [score[i] as number, score[j] as number];
      const pair = (weight[i] as number) * (weight[j] as number);
      all += pair;
      right += pair * (mine > theirs ? 1 : mine === theirs ? 0.5 : 0);
    }
  }
  return right / all;
}

checkAgainst(
  {
    quantity: "Concordance on generated lines, and its error by patient",
    unit: "absolute",
    source: "all pairs one by one, and what more weight on each patient does to the share",
    kind: "by-hand",
    tolerance: 1e-8,
    comparisons: 2 * 4 * 2,
  },
  (compare) => {
    for (const seed of [51, 52]) {
      for (const { grain, late, strata } of [
        { grain: 0, late: false, strata: false },
        { grain: 6, late: false, strata: true },
        { grain: 6, late: true, strata: false },
        { grain: 0, late: true, strata: true },
      ]) {
        const lines = generatedLines(seed, 60, { grain, late });
        const rows = slowRows(lines, strata);
        // a score of few values, so that some pairs are tied
        const values = (lines.covariates[1] as number[]).map((x) => Math.round(2 * x));
        const fit = coxRegression({
          ...(late ? { entry: rows.map((row) => row.entry) } : {}),
          exit: lines.exit,
          event: lines.end.map((end) => (end === 1 ? 1 : 0)),
          stratum: rows.map((row) => row.stratum),
          cluster: lines.patient,
          covariates: [{ name: "x", values }],
        }) as CoxFit;
        const found = fit.concordance();
        const score = values.map((x) => x * (fit.coefficients[0]?.value as number));
        const place = `seed ${seed}, grain ${grain}, late ${late}, strata ${strata}`;
        const share = (weight: readonly number[]) => slowConcordance(rows, score, weight);
        compare(`share, ${place}`, found.concordance, share(values.map(() => 1)));
        const step = 1e-4;
        const variance = [...new Set(lines.patient)].reduce((sum, patient) => {
          const heavier = (by: number) => share(lines.patient.map((each) => (each === patient ? 1 + by : 1)));
          return sum + ((heavier(step) - heavier(-step)) / (2 * step)) ** 2;
        }, 0);
        compare(`error, ${place}`, found.standardError, Math.sqrt(variance));
      }
    }
  },
);

/** The share of rows still uncensored just before u, from its definition: events leave before censorings at their time. */
function uncensoredBefore(rows: readonly SlowRow[], u: number): number {
  return [...new Set(rows.filter((row) => row.end !== 1 && row.exit < u).map((row) => row.exit))].reduce((share, c) => {
    const left = rows.filter((row) => row.exit > c || (row.exit === c && row.end !== 1)).length;
    return share * (1 - rows.filter((row) => row.exit === c && row.end !== 1).length / left);
  }, 1);
}

checkAgainst(
  {
    quantity: "Uno's concordance on generated lines",
    unit: "absolute",
    source: "all pairs one by one, each over the squared share not yet censored at its event",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 2 * 2 * 2,
  },
  (compare) => {
    for (const seed of [53, 54]) {
      for (const grain of [0, 6]) {
        const lines = generatedLines(seed, 60, { grain, late: false });
        const rows = slowRows(lines, false);
        const values = (lines.covariates[1] as number[]).map((x) => Math.round(2 * x));
        const fit = coxRegression({
          exit: lines.exit,
          event: lines.end.map((end) => (end === 1 ? 1 : 0)),
          covariates: [{ name: "x", values }],
        }) as CoxFit;
        const score = values.map((x) => x * (fit.coefficients[0]?.value as number));
        const median = [...lines.exit].sort((a, b) => a - b)[30] as number;
        for (const until of [Infinity, median]) {
          let right = 0;
          let all = 0;
          for (const [i, first] of rows.entries()) {
            if (first.end !== 1 || first.exit > until) continue;
            const weight = uncensoredBefore(rows, first.exit) ** -2;
            for (const [j, second] of rows.entries()) {
              if (!(second.exit > first.exit || (second.exit === first.exit && second.end !== 1)) || i === j) continue;
              const [mine, theirs] = [score[i] as number, score[j] as number];
              all += weight;
              right += weight * (mine > theirs ? 1 : mine === theirs ? 0.5 : 0);
            }
          }
          const ours = fit.unoConcordance(until)?.concordance as number;
          compare(`seed ${seed}, grain ${grain}, until ${until}`, ours, right / all);
        }
      }
    }
  },
);
