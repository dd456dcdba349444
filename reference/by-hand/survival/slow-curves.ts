/** Curves and tests written from their definitions, with a filter over all lines at every time: slow and obvious. */
export interface SlowLine {
  readonly entry: number;
  readonly exit: number;
  readonly end: number;
  readonly group: number;
}

const times = (lines: readonly SlowLine[], wanted: (line: SlowLine) => boolean): number[] =>
  [...new Set(lines.filter(wanted).map((line) => line.exit))].sort((a, b) => a - b);
const atRisk = (lines: readonly SlowLine[], u: number): number =>
  lines.filter((line) => line.entry < u && u <= line.exit).length;
const ended = (lines: readonly SlowLine[], u: number, kind?: number): number =>
  lines.filter((line) => line.exit === u && (kind === undefined ? line.end > 0 : line.end === kind)).length;

/** Survival up to and including t (or just before t), and the sum under Greenwood's variance. */
export function slowSurvival(lines: readonly SlowLine[], t: number, before = false): { s: number; greenwood: number } {
  const past = times(lines, (line) => line.end > 0).filter((u) => (before ? u < t : u <= t));
  const terms = past.map((u) => ({ n: atRisk(lines, u), d: ended(lines, u) }));
  return {
    s: terms.reduce((product, { n, d }) => product * (1 - d / n), 1),
    greenwood: terms.reduce((sum, { n, d }) => sum + d / (n * (n - d)), 0),
  };
}

/** Area under the curve by adding its steps, with the variance from the area after each event. */
export function slowMean(lines: readonly SlowLine[], horizon: number): { mean: number; variance: number } {
  const steps = times(lines, (line) => line.end > 0).filter((u) => u < horizon);
  const areaFrom = (start: number): number => {
    const cuts = [start, ...steps.filter((u) => u > start), horizon];
    return cuts
      .slice(1)
      .reduce((area, cut, k) => area + (cut - (cuts[k] as number)) * slowSurvival(lines, cuts[k] as number).s, 0);
  };
  const variance = steps.reduce((sum, u) => {
    const n = atRisk(lines, u);
    const d = ended(lines, u);
    return n > d ? sum + (areaFrom(u) ** 2 * d) / (n * (n - d)) : sum;
  }, 0);
  return { mean: areaFrom(0), variance };
}

export function slowIncidence(lines: readonly SlowLine[], kind: number, t: number): number {
  return times(lines, (line) => line.end === kind)
    .filter((u) => u <= t)
    .reduce((sum, u) => sum + (slowSurvival(lines, u, true).s * ended(lines, u, kind)) / atRisk(lines, u), 0);
}

/** The three sums of the delta method, each over all times up to t. */
export function slowIncidenceVariance(lines: readonly SlowLine[], kind: number, t: number): number {
  const reached = slowIncidence(lines, kind, t);
  return times(lines, (line) => line.end > 0)
    .filter((u) => u <= t)
    .reduce((sum, u) => {
      const n = atRisk(lines, u);
      const d = ended(lines, u);
      const own = ended(lines, u, kind);
      const before = slowSurvival(lines, u, true).s;
      const toCome = reached - slowIncidence(lines, kind, u);
      return (
        sum +
        (n > d ? (toCome ** 2 * d) / (n * (n - d)) : 0) +
        (before ** 2 * own * (n - own)) / n ** 3 -
        (2 * toCome * before * own) / n ** 2
      );
    }, 0);
}

/** Observed less expected of two groups and its variance, time by time from the two-by-two table. */
export function slowLogRank(lines: readonly SlowLine[], weight: (n: number, before: number) => number): number {
  let score = 0;
  let variance = 0;
  for (const u of times(lines, (line) => line.end > 0)) {
    const mine = lines.filter((line) => line.group === 0);
    const n = atRisk(lines, u);
    const d = ended(lines, u);
    const share = atRisk(mine, u) / n;
    const w = weight(n, slowSurvival(lines, u, true).s);
    score += w * (ended(mine, u) - d * share);
    if (n > 1) variance += (w * w * d * share * (1 - share) * (n - d)) / (n - 1);
  }
  return score ** 2 / variance;
}
