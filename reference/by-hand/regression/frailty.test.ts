import { type FrailtyFit, sharedFrailty } from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { uniformFrom } from "../../generated-lines.ts";
import { slope } from "./slow-likelihood.ts";

interface Line {
  readonly exit: number;
  readonly event: number;
  readonly patient: number;
  readonly x: readonly number[];
}

/** Lines of patients whose hazards differ by a factor that no covariate tells. */
function linesOfPatients(seed: number, patients: number): Line[] {
  const uniform = uniformFrom(seed);
  return Array.from({ length: patients }).flatMap((_, patient) => {
    const factor = -Math.log(1 - uniform()); // gamma of mean and variance 1
    return Array.from({ length: 1 + Math.floor(uniform() * 3) }, () => {
      const x = [uniform() < 0.5 ? 1 : 0, uniform() * 2 - 1];
      const wait =
        -Math.log(1 - uniform()) / (factor * 0.1 * Math.exp(0.7 * (x[0] as number) - 0.4 * (x[1] as number)));
      const watched = 25 * uniform();
      return { exit: Math.min(wait, watched), event: wait <= watched ? 1 : 0, patient, x };
    });
  });
}

const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

/**
 * Log likelihood with each patient's gamma frailty integrated out, as a function of everything: coefficients, log of the
 * variance, and the log of the baseline's jump at every event.
 *   sum over patients of: log integral of z^d e^(-z L) times the gamma density, by Simpson's rule on log z
 */
function slowIntegrated(
  lines: readonly Line[],
  b: readonly number[],
  variance: number,
  jumps: readonly number[],
): number {
  const times = lines.filter((line) => line.event === 1).map((line) => line.exit);
  const relative = (line: Line) => Math.exp(total(line.x.map((x, j) => x * (b[j] as number))));
  const baseline = (t: number) => total(jumps.filter((_, k) => (times[k] as number) <= t));
  const n = 1 / variance;
  const own = [...new Set(lines.map((line) => line.patient))].map((patient) => {
    const mine = lines.filter((line) => line.patient === patient);
    const d = total(mine.map((line) => line.event));
    const hazard = total(mine.map((line) => relative(line) * baseline(line.exit)));
    // z = e^s; density n^n z^(n - 1) e^(-n z) / Gamma(n), the constant by the same rule
    const simpson = (power: number, rate: number) => {
      const [from, to, steps] = [-60 / power, Math.log((power + 60) / rate), 2400];
      const h = (to - from) / steps;
      const top = power * Math.log(power / rate) - power;
      const at = (s: number) => Math.exp(power * s - rate * Math.exp(s) - top);
      const sum = total(
        Array.from({ length: steps + 1 }, (_, k) => (k % 2 === 1 ? 4 : k % steps === 0 ? 1 : 2) * at(from + k * h)),
      );
      return Math.log((h * sum) / 3) + top;
    };
    return simpson(n + d, n + hazard) - simpson(n, n);
  });
  const events = lines.filter((line) => line.event === 1);
  return total(own) + total(events.map((line, k) => Math.log((jumps[k] as number) * relative(line))));
}

checkAgainst(
  {
    quantity: "Shared gamma frailty on generated lines of patients",
    unit: "absolute",
    source: "the likelihood with every frailty integrated by Simpson's rule, level in every direction at our answer",
    kind: "by-hand",
    tolerance: 2e-6,
    comparisons: 2 * (1 + 3 + 4),
  },
  (compare) => {
    for (const seed of [61, 62]) {
      const lines = linesOfPatients(seed, 18);
      const fit = sharedFrailty({
        exit: lines.map((line) => line.exit),
        event: lines.map((line) => line.event),
        cluster: lines.map((line) => line.patient),
        covariates: [0, 1].map((j) => ({ name: `x${j}`, values: lines.map((line) => line.x[j] as number) })),
      }) as FrailtyFit;
      const b = fit.coefficients.map(({ value }) => value);
      const events = lines.filter((line) => line.event === 1);
      const weight = (line: Line) =>
        (fit.frailties[line.patient] as number) * Math.exp(total(line.x.map((x, j) => x * (b[j] as number))));
      const jumps = events.map(({ exit }) => 1 / total(lines.filter((line) => line.exit >= exit).map(weight)));
      const whole = (at: readonly number[]) =>
        slowIntegrated(
          lines,
          at.slice(0, 2),
          Math.exp(at[2] as number),
          jumps.map((jump, k) => jump * Math.exp(at[3 + k] ?? 0)),
        );
      const at = [...b, Math.log(fit.frailtyVariance), 0, 0, 0, 0];
      // the partial likelihood leaves out that all events together are expected as often as they came
      compare(`integrated likelihood, seed ${seed}`, fit.logLikelihood, whole(at) + events.length);
      for (const j of [0, 1, 2]) compare(`slope ${j}, seed ${seed}`, 0, slope(whole, at, j));
      for (const k of [0, 1, 2, 3]) compare(`slope of jump ${k}, seed ${seed}`, 0, slope(whole, at, 3 + k));
    }
  },
);
