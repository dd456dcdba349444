import { minutesBetween } from "../calendar/index.ts";
import { isMissing } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CultureLimits } from "./complication-limits.ts";
import type { CultureBottle } from "./culture-bottle.ts";
import { volumeRatio } from "./differential-time.ts";

/** One question for the laboratory about the bottles of an episode. */
export interface CultureQuery {
  readonly bottleIds: readonly string[];
  readonly finding: Finding;
}

/**
 * What the laboratory is asked about a set of bottles: loading times too far apart, unlike volumes, missing times.
 * Holds: bottles of one episode; the largest gap and ratio are named, once each. Source: policy rows (local). Example:
 * loaded 10:20 and 13:50: a gap of 210 min, above 30.
 */
export function cultureQueries(bottles: readonly CultureBottle[], limits: CultureLimits): readonly CultureQuery[] {
  const unloaded = bottles.filter(({ loadedAt }) => isMissing(loadedAt)).map(({ id }) => id);
  const unmeasured = bottles.filter(({ volumeMl }) => isMissing(volumeMl)).map(({ id }) => id);
  const missing = (bottleIds: readonly string[], code: string): CultureQuery[] =>
    bottleIds.length > 0 ? [{ bottleIds, finding: finding(code, "not known", "ask", { bottles: bottleIds }) }] : [];
  return [
    ...missing(unloaded, "culture-query-loading-missing"),
    ...loadGap(bottles, limits),
    ...volumeGap(bottles, limits),
    ...missing(unmeasured, "culture-query-volume-missing"),
  ];
}

function loadGap(bottles: readonly CultureBottle[], { loadGapMin }: CultureLimits): CultureQuery[] {
  const loaded = bottles.flatMap(({ id, loadedAt }) => (isMissing(loadedAt) ? [] : [{ id, loadedAt }]));
  const sorted = [...loaded].sort((a, b) => minutesBetween(b.loadedAt, a.loadedAt));
  const first = sorted[0];
  const last = sorted.at(-1);
  if (!first || !last) return [];
  const gapMin = minutesBetween(first.loadedAt, last.loadedAt);
  if (gapMin <= loadGapMin) return [];
  const policy = ["complication.culture-load-gap"];
  const found = finding("culture-query-load-gap", "not met", "ask", { gapMin, mostMin: loadGapMin }, { policy });
  return [{ bottleIds: [first.id, last.id], finding: found }];
}

function volumeGap(bottles: readonly CultureBottle[], { volumeRatio: most }: CultureLimits): CultureQuery[] {
  const filled = bottles.flatMap(({ id, volumeMl }) => (isMissing(volumeMl) ? [] : [{ id, volumeMl }]));
  const sorted = [...filled].sort((a, b) => a.volumeMl - b.volumeMl);
  const least = sorted[0];
  const largest = sorted.at(-1);
  if (!least || !largest || volumeRatio(least.volumeMl, largest.volumeMl) <= most) return [];
  const values = { leastMl: least.volumeMl, largestMl: largest.volumeMl, most };
  const policy = ["complication.culture-volume-ratio"];
  return [
    {
      bottleIds: [least.id, largest.id],
      finding: finding("culture-query-volumes", "not met", "ask", values, { policy }),
    },
  ];
}
