import type { RiskSets } from "./risk-sets.ts";

/**
 * What a pair counts in Uno's concordance, for every time with an event: pairs that censoring hid are made up for by those
 * it left.
 *   w(u) = 1 / G(u-)^2 up to `until`, zero after it; G the Kaplan-Meier curve of censoring, events before censorings at ties
 * Holds: rows watched from the start, one stratum, censoring alike whatever the covariates.
 * Source: Uno H and others 2011, Stat Med 30:1105 (from memory). Example: exits 1, 2+, 3: 1 at time 1, 4 at time 3.
 */
export function unoWeights(sets: RiskSets, until: number): Float64Array {
  const weights = new Float64Array(sets.places);
  let uncensored = 1;
  // rows lie by falling exit, so the first k + 1 are at risk at the exit of row k
  for (let p = sets.places - 1, row = sets.rows - 1; p >= 0; p -= 1) {
    const now = sets.time[p] as number;
    while (row >= 0 && (sets.exit[row] as number) < now) {
      const from = row;
      const time = sets.exit[row] as number;
      let censored = 0;
      for (; row >= 0 && sets.exit[row] === time; row -= 1) censored += sets.event[row] === 0 ? 1 : 0;
      const events = from - row - censored;
      if (censored > 0) uncensored *= 1 - censored / (from + 1 - events);
    }
    weights[p] = now <= until ? 1 / uncensored ** 2 : 0;
  }
  return weights;
}
