import { localDay } from "../../core/dwell/index.ts";
import { isKnown, missing, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { LineFacts, LineRow } from "../line/index.ts";

/** Values of a row that its size, lumens, length, weight or age make impossible: they are held, the row is not. */
type Held = "sizeFr" | "lumens" | "insideCm" | "weightKg";
type BodyLimits = Pick<
  CountLimits,
  "leastSizeOfLumens" | "smallCatheter" | "weightKg" | "weightAges" | "weightLeast" | "weightMost"
>;

const known = <Value>(value: Maybe<Value> | undefined): Value | undefined =>
  value === undefined || !isKnown(value) ? undefined : value;

/**
 * C2: what cannot be together. Size and lumens are held both, for either may be the wrong one; so are size and length.
 *   size < least size of its lumens; size <= small and length > its longest; weight outside its limits or its age's band
 * Units: Fr, cm, kg, whole years. Holds: any row; a value that is absent is at fault nowhere.
 * Source: common practice, no source; weight for age: WHO Child Growth Standards 2006, widened (from memory).
 * Example: 3 lumens in 3 Fr; 60 kg at 2 years.
 */
export function impossibleTogether(row: LineRow, limits: BodyLimits): ReadonlySet<Held> {
  const held = new Set<Held>();
  const [size, lumens] = [known(row.sizeFr), known(row.lumens)];
  const [inside, weight, age] = [known(row.checks?.insideCm), known(row.checks?.weightKg), known(row.ageYears)];
  if (size !== undefined && lumens !== undefined && !holdsLumens(size, lumens, limits))
    held.add("sizeFr").add("lumens");
  const [small, longest] = limits.smallCatheter as [number, number];
  if (size !== undefined && inside !== undefined && size <= small && inside > longest)
    held.add("sizeFr").add("insideCm");
  if (weight !== undefined) {
    const [lowest, highest] = limits.weightKg as [number, number];
    const band = age === undefined ? -1 : limits.weightAges.findLastIndex((from) => age >= from);
    const [low = lowest, high = highest] = [limits.weightLeast[band], limits.weightMost[band]];
    if (weight < Math.max(low, lowest) || weight > Math.min(high, highest)) held.add("weightKg");
  }
  return held;
}

/**
 * Whether an outside size can hold so many lumens.
 *   size >= least size of its lumens
 * Units: Fr. Holds: lumens that the limits name; of others nothing is said. Source: sizes the trade makes; common
 * practice, no source. Example: 3 lumens in 3 Fr cannot be; 2 in 1.9 Fr can.
 */
export const holdsLumens = (
  sizeFr: number,
  lumens: number,
  { leastSizeOfLumens }: Pick<CountLimits, "leastSizeOfLumens">,
): boolean => sizeFr >= (leastSizeOfLumens[lumens - 1] ?? -Infinity);

/** T7: times known to the month only; such a row has no days to count. */
export const isCoarse = ({ checks }: LineRow): boolean => known(checks?.timeKnownTo) === "month";

/** A count of lines that is a whole number but for rounding is that number. */
const ROUNDING = 1e-9;

/**
 * T5, by the service's own dwells: the longest that is still usual, the inverse of their empirical distribution.
 *   the smallest own dwell that at least a share of all do not exceed; none is above it while share x number rounds up to
 *   the number: at 0.999 a service needs 1,000 removed lines before one of them can be
 * Units: days. Holds: any dwells; of none, Infinity. Source: Hyndman and Fan 1996, Am Stat 50:361, definition 1 (from
 * memory). Example: of 1,000 dwells the second longest: the longest alone is asked about.
 */
export function longestUsual(dwells: Float64Array, share: number): number {
  const at = Math.ceil(share * dwells.length - ROUNDING);
  return dwells.length === 0 ? Infinity : (dwells.toSorted()[Math.max(0, at - 1)] as number);
}

/**
 * T10: known here before it was placed. One of the two moments is wrong and nobody can say which: its days would run from
 * before the line, its entry into a curve from the placing.
 *   both to the minute: by the minute; else by the local date
 * Holds: any row; one without either moment is at fault nowhere. Source: common practice, no source.
 */
export const isKnownBeforePlaced = ({ placed, knownFrom }: LineRow): boolean => {
  if (placed === undefined || knownFrom === undefined) return false;
  if (placed.precision === "minute" && knownFrom.precision === "minute") return knownFrom.utc < placed.utc;
  return localDay(knownFrom) < localDay(placed);
};

/** C3: a value was first written, or changed, when what became of the line was known. The value written last is kept. */
export const isWrittenAfter = ({ checks }: LineRow): boolean => (known(checks?.writtenAfter) ?? []).length > 0;

const HELD = missing("not known");

/** The facts without what the row's own rules hold: impossible values become "not known", coarse times no stay. */
export function withoutHeld(facts: LineFacts, held: ReadonlySet<Held>): LineFacts {
  const coarse = isCoarse(facts.row);
  if (held.size === 0 && !coarse) return facts;
  const { row } = facts;
  const { checks } = row;
  return {
    ...facts,
    row: {
      ...row,
      ...(held.has("sizeFr") ? { sizeFr: HELD, writtenRatio: HELD } : {}),
      ...(held.has("lumens") ? { lumens: HELD } : {}),
      ...(checks === undefined
        ? {}
        : {
            checks: {
              ...checks,
              ...(held.has("insideCm") ? { insideCm: HELD } : {}),
              ...(held.has("weightKg") ? { weightKg: HELD } : {}),
            },
          }),
    },
    ...(coarse ? { stay: undefined, longest: undefined, dwellDays: undefined } : {}),
  };
}
