import { minutesBetween } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CultureLimits } from "./complication-limits.ts";
import { timeToPositivityMin, type CultureBottle } from "./culture-bottle.ts";
import { cultureQueries, type CultureQuery } from "./culture-query.ts";
import { differentialTime, type CultureOutcome, type DifferentialTime } from "./differential-time.ts";

export interface CulturePair extends DifferentialTime {
  readonly line: CultureBottle;
  readonly peripheral: CultureBottle;
}

export interface CultureAnswer {
  /** Met if any pair meets it; not met only if every pair was judged and met nothing. */
  readonly outcome: CultureOutcome;
  readonly pairs: readonly CulturePair[];
  readonly findings: readonly Finding[];
  readonly queries: readonly CultureQuery[];
}

/**
 * Every bottle of the line against the peripheral bottle of the same medium drawn with it, the first to flag of several, as
 * criterion met, not met or indeterminate. Without a peripheral bottle two lumens are shown side by side and no criterion by time is held.
 * Holds: bottles of one episode. Source: Mermel LA and others 2009, Clin Infect Dis 49:1. Example: one lumen, 105 min
 * earlier, loaded 210 min apart: indeterminate, with the differential shown.
 */
export function judgeCultures(
  bottles: readonly CultureBottle[],
  antibioticBefore: Maybe<boolean>,
  limits: CultureLimits,
): CultureAnswer {
  const queries = cultureQueries(bottles, limits);
  const lines = bottles.filter(({ site }) => site.kind === "lumen");
  const peripherals = bottles.filter(({ site }) => site.kind === "peripheral");
  const none = (findings: readonly Finding[]): CultureAnswer => ({
    outcome: "indeterminate",
    pairs: [],
    findings,
    queries,
  });
  if (lines.length === 0) return none([finding("culture-no-line-bottle", "not known", "ask")]);
  if (peripherals.length === 0) return none([finding("culture-no-peripheral", "not known", "ask"), ...lumens(lines)]);
  const pairs = lines.flatMap((line): CulturePair[] => {
    const like = peripherals.filter((one) => sameMedium(line, one));
    const together = like.filter((one) => drawnTogether(line, one, limits.drawGapMin));
    const peripheral = firstFlagged(together.length > 0 ? together : like);
    return peripheral ? [{ line, peripheral, ...differentialTime(line, peripheral, antibioticBefore, limits) }] : [];
  });
  if (pairs.length === 0) return none([finding("culture-no-like-medium", "not known", "ask")]);
  return { outcome: outcomeOf(pairs), pairs, findings: [], queries };
}

/** A medium in which neither bottle grew says nothing about the other medium. */
function outcomeOf(pairs: readonly CulturePair[]): CultureOutcome {
  const grown = pairs.filter(({ line, peripheral }) => line.flaggedAt !== "none" || peripheral.flaggedAt !== "none");
  if (grown.some(({ outcome }) => outcome === "criterion met")) return "criterion met";
  return grown.length > 0 && grown.every(({ outcome }) => outcome === "criterion not met")
    ? "criterion not met"
    : "indeterminate";
}

const drawnTogether = (one: CultureBottle, other: CultureBottle, gapMin: number): boolean =>
  !isMissing(one.drawnAt) &&
  !isMissing(other.drawnAt) &&
  Math.abs(minutesBetween(one.drawnAt, other.drawnAt)) <= gapMin;

const sameMedium = (one: CultureBottle, other: CultureBottle): boolean =>
  isMissing(one.medium) || isMissing(other.medium)
    ? isMissing(one.medium) && isMissing(other.medium)
    : one.medium === other.medium;

const minutesOf = (bottle: CultureBottle): number => timeToPositivityMin(bottle) ?? Infinity;

const firstFlagged = (bottles: readonly CultureBottle[]): CultureBottle | undefined =>
  bottles.reduce<CultureBottle | undefined>(
    (first, one) => (first && minutesOf(first) <= minutesOf(one) ? first : one),
    undefined,
  );

/** One bottle for each lumen and medium: the one that flagged first. */
function firstOfEachLumen(lines: readonly CultureBottle[]): readonly CultureBottle[] {
  const groups = new Map<string, CultureBottle[]>();
  for (const line of lines) {
    const lumen = line.site.kind === "lumen" ? line.site.lumen : "";
    const key = `${lumen} ${isMissing(line.medium) ? "" : line.medium}`;
    groups.set(key, [...(groups.get(key) ?? []), line]);
  }
  return [...groups.values()].flatMap((group) => firstFlagged(group) ?? []);
}

/** Two lumens without a peripheral sample: their times side by side, no criterion. */
function lumens(lines: readonly CultureBottle[]): Finding[] {
  const flagged = firstOfEachLumen(lines).filter((one) => timeToPositivityMin(one) !== undefined);
  const times = flagged.map(minutesOf);
  if (times.length < 2) return [];
  const apartMin = Math.max(...times) - Math.min(...times);
  return [finding("culture-lumens-apart", "not known", "note", { apartMin })];
}
