import { riskWeight } from "../../core/control-chart/index.ts";
import { cusumPath } from "../../core/control-chart/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import { logisticRegression } from "../../core/regression/index.ts";
import { shrinkShares } from "../../core/shrinkage/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ratioOf, type LineFacts } from "../line/index.ts";

export interface LearningCase {
  readonly line: string;
  /** Needed more than one attempt. */
  readonly missed: boolean;
  /** Chance of a miss for an acceptable operator, given this vein and this person. */
  readonly risk: number;
  readonly sum: number;
}

/** Of one person, for that person and the trainer; never set beside another's. */
export interface LearningCurve {
  readonly cases: readonly LearningCase[];
  /** The sum at which misses are too many for the acceptable share. */
  readonly limit: number;
  readonly crossedAt: number | undefined;
  readonly seen: number;
  readonly expected: number;
  /** Whether difficulty could be modelled, or every case had the same chance. */
  readonly difficulty: "vein diameter, ratio and age" | "the same for all: too few misses to model";
  readonly linesWithoutAttempts: number;
  /**
   * The person's share of misses, drawn towards all who place by as much as the lines are few; difficulty is not in it, and
   * it has no limits, since those who place are few.
   */
  readonly drawnShare: number | undefined;
}

/**
 * The learning curve of one person, each case weighed by how hard it was.
 *   W = y ln R - ln(1 - p + R p), R the odds ratio of the two shares of the policy, limit = ln((1 - error) / error)
 *   p from a logistic model over all other lines of the service, moved so that its mean is the acceptable share
 * Units: natural log of a likelihood ratio. Holds: lines with known attempts; the model needs the policy's events for
 * each of its three parameters, else every case has the acceptable share. Source: Steiner and others 2000, Biostatistics
 * 1:441. Example: shares 0.10 and 0.20, errors 0.1: +0.693 for a miss, -0.118 otherwise, limit 2.197.
 */
export function learningCurve(lines: readonly LineFacts[], inserter: string, limits: CountLimits): LearningCurve {
  const [acceptable, tooMany] = limits.learningRates as [number, number];
  const odds = (share: number) => share / (1 - share);
  const ratio = odds(tooMany) / odds(acceptable);
  const timed = lines.filter(({ placedOn }) => placedOn !== undefined);
  const own = timed.filter(({ row }) => row.inserter === inserter).sort(byTime);
  const risks = caseRisks(
    timed.filter(({ row }) => row.inserter !== inserter),
    acceptable,
    limits,
  );
  const known = own.flatMap((line) => (isKnown(line.row.attempts) ? [{ line, missed: line.row.attempts > 1 }] : []));
  const outcomes = known.map(({ line, missed }) => ({ event: missed, risk: risks.of(line) }));
  const limit = Math.log((1 - limits.learningError) / limits.learningError);
  const path = cusumPath(
    outcomes.map((outcome) => riskWeight(outcome, ratio)),
    { decision: limit },
  );
  const crossed = path.findIndex(({ signal }) => signal);
  return {
    cases: known.map(({ line, missed }, at) => ({
      line: line.row.key,
      missed,
      risk: (outcomes[at] as { readonly risk: number }).risk,
      sum: (path[at] as { readonly value: number }).value,
    })),
    limit,
    crossedAt: crossed < 0 ? undefined : crossed + 1,
    seen: known.filter(({ missed }) => missed).length,
    expected: outcomes.reduce((sum, { risk }) => sum + risk, 0),
    difficulty: risks.modelled ? "vein diameter, ratio and age" : "the same for all: too few misses to model",
    linesWithoutAttempts: own.length - known.length,
    drawnShare: drawnShareOf(timed, inserter),
  };
}

/** Undefined while the person or all others have no line with known attempts, or where people differ no more than chance. */
function drawnShareOf(lines: readonly LineFacts[], inserter: string): number | undefined {
  const people = new Map<string, { misses: number; lines: number }>();
  for (const { row } of lines) {
    if (!isKnown(row.attempts) || !isKnown(row.inserter)) continue;
    const seen = people.get(row.inserter) ?? { misses: 0, lines: 0 };
    people.set(row.inserter, { misses: seen.misses + (row.attempts > 1 ? 1 : 0), lines: seen.lines + 1 });
  }
  const all = [...people.values()];
  const misses = all.reduce((sum, one) => sum + one.misses, 0);
  const at = [...people.keys()].indexOf(inserter);
  if (at < 0 || all.length < 2 || misses === 0 || misses === all.reduce((sum, one) => sum + one.lines, 0))
    return undefined;
  const found = shrinkShares({ count: all.map((one) => one.misses), number: all.map((one) => one.lines) });
  return found.kind === "shrunk" ? found.units[at]?.mean : undefined;
}

const minuteOf = ({ row, placedOn }: LineFacts): number =>
  row.placed?.precision === "minute" ? row.placed.utc : (placedOn as number) * 1440 + 720;
const byTime = (a: LineFacts, b: LineFacts): number => minuteOf(a) - minuteOf(b);

const PARAMETERS = 3;

function factors({ row }: LineFacts): readonly [number, number, number] | undefined {
  const ratio = ratioOf(row);
  return isKnown(row.veinDiameterMm) && isKnown(ratio) && isKnown(row.ageYears)
    ? [row.veinDiameterMm, ratio, row.ageYears]
    : undefined;
}

function caseRisks(
  others: readonly LineFacts[],
  acceptable: number,
  { eventsPerParameter }: CountLimits,
): { readonly modelled: boolean; readonly of: (line: LineFacts) => number } {
  const same = { modelled: false, of: () => acceptable };
  const usable = others.flatMap((line) => {
    const known = factors(line);
    return known && isKnown(line.row.attempts) ? [{ known, missed: line.row.attempts > 1 ? 1 : 0 }] : [];
  });
  const misses = usable.filter(({ missed }) => missed === 1).length;
  if (misses < (eventsPerParameter[1] as number) * PARAMETERS) return same;
  const fit = logisticRegression({
    count: usable.map(({ missed }) => missed),
    covariates: ["vein diameter", "ratio", "age"].map((name, at) => ({
      name,
      values: usable.map(({ known }) => known[at] as number),
    })),
  });
  if (fit.kind !== "fitted") return same;
  const weights = fit.coefficients.slice(1).map(({ value }) => value);
  const slope = (known: readonly number[]) => known.reduce((sum, x, at) => sum + x * (weights[at] as number), 0);
  const slopes = usable.map(({ known }) => slope(known));
  const intercept = interceptFor(slopes, acceptable);
  return {
    modelled: true,
    of: (line) => {
      const known = factors(line);
      return known ? chanceOf(intercept + slope(known)) : acceptable;
    },
  };
}

const chanceOf = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds));

/** The intercept under which the mean chance is the acceptable share, by halving: the mean rises with it. */
function interceptFor(slopes: readonly number[], acceptable: number): number {
  const mean = (intercept: number) => slopes.reduce((sum, one) => sum + chanceOf(intercept + one), 0) / slopes.length;
  let [low, high] = [-50 - Math.max(...slopes), 50 - Math.min(...slopes)];
  for (let turn = 0; turn < 100; turn += 1) {
    const middle = (low + high) / 2;
    if (mean(middle) < acceptable) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
