/** Likelihoods written row by row from their definitions, and derivatives of any function by differences. */
import type { GeneratedLines } from "../../generated-lines.ts";

export interface SlowRow {
  readonly entry: number;
  readonly exit: number;
  readonly end: number;
  readonly stratum: number;
  readonly x: readonly number[];
}

export const slowRows = (lines: GeneratedLines, stratified: boolean): SlowRow[] =>
  lines.exit.map((exit, i) => ({
    entry: lines.entry[i] === 0 ? -1 : (lines.entry[i] as number),
    exit,
    end: lines.end[i] as number,
    stratum: stratified ? (lines.group[i] as number) : 0,
    x: lines.covariates.map((column) => column[i] as number),
  }));

const dot = (x: readonly number[], b: readonly number[]): number =>
  x.reduce((sum, value, j) => sum + value * (b[j] as number), 0);
const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/** Every stratum and event time, with its tied events and its risk set. */
export function moments(rows: readonly SlowRow[]): { time: number; tied: SlowRow[]; risk: SlowRow[] }[] {
  return [...new Set(rows.map((row) => row.stratum))].flatMap((stratum) => {
    const own = rows.filter((row) => row.stratum === stratum);
    return [...new Set(own.filter((row) => row.end === 1).map((row) => row.exit))].map((time) => ({
      time,
      tied: own.filter((row) => row.end === 1 && row.exit === time),
      risk: own.filter((row) => row.entry < time && time <= row.exit),
    }));
  });
}

/** All ways to choose some of the rows, one by one: only for a few ties. */
function choices(rows: readonly number[], count: number): number {
  if (count === 0) return 1;
  return total(rows.map((hazard, i) => hazard * choices(rows.slice(i + 1), count - 1)));
}

export function slowCox(rows: readonly SlowRow[], ties: "breslow" | "efron" | "exact", b: readonly number[]): number {
  return total(
    moments(rows).map(({ tied, risk }) => {
      const hazard = (row: SlowRow) => Math.exp(dot(row.x, b));
      const whole = total(risk.map(hazard));
      const mine = total(tied.map(hazard));
      const events = total(tied.map((row) => dot(row.x, b)));
      if (ties === "exact") return events - Math.log(choices(risk.map(hazard), tied.length));
      return events - total(tied.map((_, l) => Math.log(whole - (ties === "efron" ? (l / tied.length) * mine : 0))));
    }),
  );
}

/** What each row adds to the score, by a loop over all event times. */
export function slowScores(rows: readonly SlowRow[], ties: "breslow" | "efron", b: readonly number[]): number[][] {
  const hazard = (row: SlowRow) => Math.exp(dot(row.x, b));
  return rows.map((row) =>
    row.x.map((x, j) =>
      total(
        moments(rows.filter((other) => other.stratum === row.stratum)).map(({ time, tied, risk }) =>
          total(
            tied.map((_, l) => {
              const share = ties === "efron" ? l / tied.length : 0;
              const weight = (other: SlowRow) => hazard(other) * (tied.includes(other) ? 1 - share : 1);
              const sum = total(risk.map(weight));
              const mean = total(risk.map((other) => weight(other) * (other.x[j] as number))) / sum;
              const expected = row.entry < time && time <= row.exit ? (weight(row) / sum) * (x - mean) : 0;
              return (tied.includes(row) ? (x - mean) / tied.length : 0) - expected;
            }),
          ),
        ),
      ),
    ),
  );
}

/** Fine and Gray: every row weighed anew at every event time. */
export function slowFineGray(rows: readonly SlowRow[], b: readonly number[]): { value: number; scores: number[][] } {
  const censored = [...new Set(rows.filter((row) => row.end === 0).map((row) => row.exit))];
  const atRisk = (c: number) => rows.filter((row) => row.exit >= c).length;
  const hazardOf = (c: number) => rows.filter((row) => row.exit === c && row.end === 0).length / atRisk(c);
  const before = (t: number) => censored.filter((c) => c < t).reduce((product, c) => product * (1 - hazardOf(c)), 1);
  const other = (row: SlowRow) => row.end > 1;
  const weight = (row: SlowRow, u: number) => (row.exit >= u ? 1 : other(row) ? before(u) / before(row.exit) : 0);
  const theta = (row: SlowRow) => Math.exp(dot(row.x, b));
  const times = [...new Set(rows.filter((row) => row.end === 1).map((row) => row.exit))].map((u) => {
    const weights = rows.map((row) => theta(row) * weight(row, u));
    const sum = total(weights);
    const tied = rows.filter((row) => row.end === 1 && row.exit === u).length;
    const mean = b.map((_, j) => total(rows.map((row, i) => (weights[i] as number) * (row.x[j] as number))) / sum);
    return { u, weights, sum, tied, mean, g: before(u) };
  });
  const value =
    total(rows.filter((row) => row.end === 1).map((row) => dot(row.x, b))) -
    total(times.map((t) => t.tied * Math.log(t.sum)));
  const pull = (c: number, j: number) =>
    total(
      rows
        .filter((row) => other(row) && row.exit < c)
        .flatMap((row) =>
          times
            .filter((t) => t.u >= c)
            .map(
              (t) =>
                ((theta(row) * t.g) / before(row.exit)) *
                ((row.x[j] as number) - (t.mean[j] as number)) *
                (t.tied / t.sum),
            ),
        ),
    ) / atRisk(c);
  const pulls = censored.map((c) => ({ c, hazard: hazardOf(c), by: b.map((_, j) => pull(c, j)) }));
  const scores = rows.map((row, i) =>
    row.x.map((x, j) => {
      const own = total(
        times.map(
          (t) =>
            (row.end === 1 && row.exit === t.u ? x - (t.mean[j] as number) : 0) -
            ((t.weights[i] as number) * (x - (t.mean[j] as number)) * t.tied) / t.sum,
        ),
      );
      const drift = total(pulls.map((p) => (row.exit >= p.c ? (p.by[j] as number) * p.hazard : 0)));
      const censoring = row.end === 0 ? (pulls.find((p) => p.c === row.exit)?.by[j] as number) : 0;
      return own + censoring - drift;
    }),
  );
  return { value, scores };
}

export interface SlowCounts {
  readonly count: readonly number[];
  readonly exposure: readonly number[];
  readonly x: readonly (readonly number[])[];
}

const logGammaRatio = (theta: number, y: number): number =>
  total(Array.from({ length: y }, (_, i) => Math.log(theta + i)));

export const slowPoisson = (data: SlowCounts, b: readonly number[]): number =>
  total(
    data.count.map((y, i) => {
      const mean = (data.exposure[i] as number) * Math.exp(dot([1, ...(data.x[i] as number[])], b));
      return y * Math.log(mean) - mean - logGammaRatio(1, y);
    }),
  );

export const slowLogistic = (data: SlowCounts, b: readonly number[]): number =>
  total(
    data.count.map((y, i) => {
      const chance = 1 / (1 + Math.exp(-dot([1, ...(data.x[i] as number[])], b)));
      return Math.log(y === 1 ? chance : 1 - chance);
    }),
  );

/** The last of the coefficients is log theta. */
export const slowNegativeBinomial = (data: SlowCounts, b: readonly number[]): number => {
  const theta = Math.exp(b.at(-1) as number);
  return total(
    data.count.map((y, i) => {
      const mean = (data.exposure[i] as number) * Math.exp(dot([1, ...(data.x[i] as number[])], b.slice(0, -1)));
      return (
        logGammaRatio(theta, y) -
        logGammaRatio(1, y) +
        theta * Math.log(theta / (theta + mean)) +
        y * Math.log(mean / (theta + mean))
      );
    }),
  );
};

type Curve = (b: readonly number[]) => number;

/** Slope along one coordinate, by differences of fourth order. */
export function slope(f: Curve, b: readonly number[], j: number, h = 2e-3): number {
  const at = (step: number) => f(b.map((value, k) => (k === j ? value + step : value)));
  return (8 * (at(h) - at(-h)) - (at(2 * h) - at(-2 * h))) / (12 * h);
}

/** Less the second derivatives. */
export const curvature = (f: Curve, b: readonly number[]): number[][] =>
  b.map((_, j) => b.map((__, k) => -slope((at) => slope(f, at, k, 1e-2), b, j, 1e-2)));

/** By expansion along the first row. */
export function determinant(table: readonly (readonly number[])[]): number {
  if (table.length === 0) return 1;
  return total(
    (table[0] as number[]).map(
      (value, j) =>
        (j % 2 === 0 ? 1 : -1) * value * determinant(table.slice(1).map((row) => row.filter((_, k) => k !== j))),
    ),
  );
}

/** By cofactors. */
export const slowInverse = (table: readonly (readonly number[])[]): number[][] =>
  table.map((_, i) =>
    table.map(
      (__, j) =>
        (((i + j) % 2 === 0 ? 1 : -1) *
          determinant(table.filter((___, r) => r !== j).map((row) => row.filter((____, c) => c !== i)))) /
        determinant(table),
    ),
  );

/** The function and half the log determinant of its curvature: Firth's, for a model whose information is that curvature. */
export const penalised =
  (f: Curve): Curve =>
  (b) =>
    f(b) + Math.log(determinant(curvature(f, b))) / 2;

/** Errors from a sandwich of the curvature and the rows' scores summed by cluster. */
export function slowRobust(
  table: readonly (readonly number[])[],
  scores: readonly (readonly number[])[],
  cluster: readonly number[],
): number[] {
  const within = slowInverse(table);
  const effects = [...new Set(cluster)].map((code) =>
    within.map((row) => total(scores.map((score, i) => (cluster[i] === code ? dot(row, score) : 0)))),
  );
  return table.map((_, j) => Math.sqrt(total(effects.map((effect) => (effect[j] as number) ** 2))));
}
