/**
 * The slow obvious twins of src/core/incidence: chances by adding terms, limits by halving the gap sixty times. They share
 * no line with the rooms they check.
 */
export function poissonTerms(mean: number, upTo: number): number[] {
  const terms = [Math.exp(-mean)];
  for (let k = 1; k <= upTo; k += 1) terms.push(((terms[k - 1] as number) * mean) / k);
  return terms;
}

export function binomialTerms(number: number, share: number): number[] {
  // Pascal's triangle row by row: adding one more trial
  let row = [1];
  for (let trial = 0; trial < number; trial += 1)
    row = Array.from({ length: trial + 2 }, (_, k) => (row[k] ?? 0) * (1 - share) + (row[k - 1] ?? 0) * share);
  return row;
}

const sum = (terms: readonly number[]) => terms.reduce((total, term) => total + term, 0);

/** Half of the terms at the place counts as beyond it in mid-P, all of it in the exact way. */
const weightOf = (method: "exact" | "mid-P") => (method === "exact" ? 1 : 0.5);

export const atMost = (terms: readonly number[], k: number, method: "exact" | "mid-P") =>
  sum(terms.slice(0, k)) + weightOf(method) * (terms[k] as number);

export const atLeast = (terms: readonly number[], k: number, method: "exact" | "mid-P") =>
  1 - sum(terms.slice(0, k + 1)) + weightOf(method) * (terms[k] as number);

/** Where a rising function crosses zero. */
export function halve(rises: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let turn = 0; turn < 100; turn += 1) {
    const middle = (low + high) / 2;
    if (rises(middle) > 0) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

export function slowCountLimits(events: number, level: number, method: "exact" | "mid-P"): [number, number] {
  const side = (1 - level) / 2;
  const top = events * 3 + 40;
  return [
    events === 0 ? 0 : halve((m) => atLeast(poissonTerms(m, events), events, method) - side, 0, top),
    halve((m) => side - atMost(poissonTerms(m, events), events, method), 0, top),
  ];
}

export function slowShareLimits(
  events: number,
  number: number,
  level: number,
  method: "exact" | "mid-P",
): [number, number] {
  const side = (1 - level) / 2;
  return [
    events === 0 ? 0 : halve((p) => atLeast(binomialTerms(number, p), events, method) - side, 0, 1),
    events === number ? 1 : halve((p) => side - atMost(binomialTerms(number, p), events, method), 0, 1),
  ];
}

/** All counts no more likely than the one seen, one by one. */
export const slowSmallChances = (terms: readonly number[], seen: number) =>
  sum(terms.filter((term) => term <= (terms[seen] as number) * (1 + 1e-7)));
