import {
  compareStandardisedRatios,
  countAgainstExpected,
  countLimits,
  eventsToCompare,
  expectedEvents,
  incidenceRate,
  oneSidedUpper,
  powerAgainstBenchmark,
  proportionDifference,
  proportionLimits,
  rateDifference,
  rateRatio,
  ratioWithDoubtfulReference,
  standardisedRatio,
  upperOverEstimate,
  upperRateAfterNone,
  upperShareAfterNone,
  type EventsInDays,
} from "../../src/core/incidence/index.ts";
import { day } from "../../src/core/quantity/index.ts";
import { checkPairs, type CheckKind, type Pair } from "../check.ts";

const seen = (events: number, days: number): EventsInDays<"exact"> => ({ events, days: day(days), clock: "exact" });

function known<Answer>(answer: Answer | string): Answer {
  if (typeof answer === "string") throw new Error(answer);
  return answer;
}

/** Pairs of ours and theirs, each theirs printed to as many digits as its half unit is given for. */
const printed = (quantity: string, source: string, tolerance: number, kind: CheckKind, pairs: readonly Pair[]): void =>
  checkPairs({ quantity, source, tolerance, kind, unit: "relative" }, pairs);

printed("Exact limits of ten events", "Ulm 1990, Breslow and Day 1987 table 2.11 (from memory)", 2e-4, "published", [
  ["lower", countLimits(10, 0.95, "exact").lower, 4.795],
  ["upper", countLimits(10, 0.95, "exact").upper, 18.39],
]);

const { lower, upper, perThousand } = incidenceRate(seen(7, 4321.5), 0.95, "exact");
printed("Rate of seven events in 4321.5 days", "R 4.2.2, poisson.test", 1e-8, "independent", [
  ["rate", perThousand, 1.61980794],
  ["lower", lower, 0.651246801],
  ["upper", upper, 3.33742343],
  ["none in 850", incidenceRate(seen(0, 850), 0.95, "exact").upper, 4.33985818],
  ["two-sided p", countAgainstExpected(7, 4.3215).twoSidedSmallChances, 0.217451355],
  ["one-sided p", countAgainstExpected(7, 4.3215).asManyOrMore, 0.146782108],
  ["one-sided mid-P", countAgainstExpected(7, 4.3215).asManyOrMoreMidP, 0.109698884],
]);

printed(
  "Rate of a published register",
  "Europe PMC record MED 36717942: 73 in 38,320 days, 1.9 per 1000",
  0,
  "published",
  [["rate to one decimal", Math.round(10 * incidenceRate(seen(73, 38_320), 0.95, "exact").perThousand) / 10, 1.9]],
);

const first = known(rateRatio(seen(17, 100_025), seen(3, 122_268), 0.95, "exact"));
const firstMid = known(rateRatio(seen(17, 100_025), seen(3, 122_268), 0.95, "mid-P"));
const second = known(rateRatio(seen(8, 78_531), seen(1, 77_932), 0.95, "exact"));
const secondMid = known(rateRatio(seen(8, 78_531), seen(1, 77_932), 0.95, "mid-P"));
printed(
  "Rate ratio of two hospitals",
  "published surveillance course, epiinformatics.com, session I",
  5e-4,
  "published",
  [
    ["17 v 3", first.ratio, 6.927],
    ["17 v 3, exact lower", first.lower, 2.004],
    ["17 v 3, exact upper", first.upper, 36.89],
    ["17 v 3, mid-P lower", firstMid.lower, 2.21],
    ["17 v 3, mid-P upper", firstMid.upper, 29.63],
    ["8 v 1", second.ratio, 7.939],
    ["8 v 1, exact lower", second.lower, 1.064],
    ["8 v 1, exact upper", second.upper, 352.3],
    ["8 v 1, mid-P lower", secondMid.lower, 1.27],
    ["8 v 1, mid-P upper", secondMid.upper, 177.6],
  ],
);

const textbook = rateDifference(seen(136, 22_050), seen(1709, 127_650), 0.9);
printed(
  "Rate difference of a textbook",
  "Rothman, Epidemiology: an introduction (ebrary.net/72033)",
  4e-3,
  "published",
  [
    ["difference", textbook.perThousand, -7.2],
    ["lower", textbook.lower, -8.2],
    ["upper", textbook.upper, -6.2],
  ].map(
    ([place, ours, theirs]) => [place as string, Math.round((ours as number) * 10) / 10, theirs as number] as const,
  ),
);

const rule = { level: 0.95, method: "mid-P", leastExpected: 1 } as const;
const sir = (observed: number, expected: number) => known(standardisedRatio({ observed, expected }, rule));
printed("Standardised ratio, mid-P", "R 4.2.2, uniroot, as CDC's macros of 2014 define it", 1e-7, "independent", [
  ["4 of 3.3", sir(4, 3.3).ratio, 1.21212121],
  ["4 of 3.3, lower", sir(4, 3.3).lower ?? 0, 0.385134898],
  ["4 of 3.3, upper", sir(4, 3.3).upper, 2.9237696],
  ["4 of 3.3, p", sir(4, 3.3).chanceMidP, 0.657071427],
  ["2 of 2.04, lower", sir(2, 2.04).lower ?? 0, 0.164376988],
  ["2 of 2.04, upper", sir(2, 2.04).upper, 3.23919595],
  ["2 of 2.04, p", sir(2, 2.04).chanceMidP, 0.938861696],
  ["2 of 1.632, p", sir(2, 1.632).chanceMidP, 0.710286964],
  ["none of 1.5, upper", sir(0, 1.5).upper, 1.99715485],
  ["none of 1.5, p", sir(0, 1.5).chanceMidP, 0.22313016],
  ["8 of 3.59, lower", sir(8, 3.59).lower ?? 0, 1.03492918],
  ["8 of 3.59, upper", sir(8, 3.59).upper, 4.2316143],
  ["8 of 3.59, p", sir(8, 3.59).chanceMidP, 0.0418478368],
  ["53 of 48.62, p", sir(53, 48.62).chanceMidP, 0.521519834],
  ["120 of 97.5, lower", sir(120, 97.5).lower ?? 0, 1.02488131],
  ["120 of 97.5, p", sir(120, 97.5).chanceMidP, 0.0269446819],
]);

printed(
  "Standardised ratios in print",
  "epiinformatics.com, session I, and CDC's published macros",
  5e-4,
  "published",
  [
    ["4 of 3.3", sir(4, 3.3).ratio, 1.212],
    ["4 of 3.3, p", sir(4, 3.3).chanceMidP, 0.6571],
    ["2 of 2.04", sir(2, 2.04).ratio, 0.98],
    ["53 of 48.62", Math.round(100 * sir(53, 48.62).ratio) / 100, 1.09],
  ],
);

const strata = [
  [1850, 1.4],
  [3120, 1.1],
  [5400, 0.6],
  [640, 1.6],
] as const;
const expected = expectedEvents(strata.map(([days, rate]) => ({ days: day(days), referencePerThousand: rate })));
const doubtful = ratioWithDoubtfulReference({ observed: 12, expected }, 40, 0.95);
printed("Standardised ratio of four strata", "R 4.2.2, uniroot", 1e-7, "independent", [
  ["expected", expected, 10.286],
  ["ratio", sir(12, expected).ratio, 1.16663426],
  ["mid-P lower", sir(12, expected).lower ?? 0, 0.632106234],
  ["mid-P upper", sir(12, expected).upper, 1.98336113],
  ["doubtful reference, lower", doubtful.lower, 0.61202618],
  ["doubtful reference, upper", doubtful.upper, 2.22381908],
]);

const pair = (o1: number, e1: number, o2: number, e2: number) =>
  known(compareStandardisedRatios({ observed: o1, expected: e1 }, { observed: o2, expected: e2 }, 0.95, "mid-P"));
printed("Two standardised ratios", "R 4.2.2, uniroot, as CDC's macro of 2014 defines it", 1e-7, "independent", [
  ["9 and 14", pair(9, 5.2, 14, 10.1).ratio, 1.24862637],
  ["9 and 14, lower", pair(9, 5.2, 14, 10.1).lower, 0.517913571],
  ["9 and 14, upper", pair(9, 5.2, 14, 10.1).upper, 2.88919803],
  ["9 and 14, p", pair(9, 5.2, 14, 10.1).twoSidedMidP, 0.600392644],
  ["3 and 12, p", pair(3, 6.1, 12, 7.4).twoSidedMidP, 0.051419919],
  ["0 and 6, upper", pair(0, 3.2, 6, 2.9).upper, 0.586841256],
  ["0 and 6, p", pair(0, 3.2, 6, 2.9).twoSidedMidP, 0.0115453998],
]);

const wilson = (x: number, n: number) => proportionLimits(x, n, 0.95, "Wilson");
const apart = (x: number, n: number, y: number, m: number) =>
  proportionDifference({ events: x, number: n }, { events: y, number: m }, 0.95);
printed(
  "Limits of proportions",
  "R 4.2.2; Newcombe 1998, Stat Med 17:857 and 17:873, agrees to 4 decimals (from memory)",
  1e-8,
  "independent",
  [
    ["81/263 lower", wilson(81, 263).lower, 0.25528852],
    ["81/263 upper", wilson(81, 263).upper, 0.366209577],
    ["15/148 lower", wilson(15, 148).lower, 0.0623863995],
    ["0/20 upper", wilson(0, 20).upper, 0.161125158],
    ["1/29 lower", wilson(1, 29).lower, 0.00611321429],
    ["1/29 upper", wilson(1, 29).upper, 0.171755219],
    ["56/70 - 48/80 lower", apart(56, 70, 48, 80).lower, 0.0524314724],
    ["56/70 - 48/80 upper", apart(56, 70, 48, 80).upper, 0.333872654],
    ["9/10 - 3/10 lower", apart(9, 10, 3, 10).lower, 0.170522724],
    ["9/10 - 3/10 upper", apart(9, 10, 3, 10).upper, 0.809017974],
    ["10/10 - 0/20 lower", apart(10, 10, 0, 20).lower, 0.679086037],
    ["10/10 - 0/20 upper", apart(10, 10, 0, 20).upper, 1],
  ],
);

printed("Small-sample figures", "R 4.2.2, exact Poisson; Schoenfeld 1983", 1e-6, "independent", [
  ["none in 30", upperShareAfterNone(30, 0.95), 0.0950338529],
  ["none in 100", upperShareAfterNone(100, 0.95), 0.0295130496],
  ["none in 500 days", upperRateAfterNone(500, 0.95), 5.99146455],
  ["one-sided upper of none", oneSidedUpper(0, 0.95), 2.995732274],
  ["5 events, upper over estimate", upperOverEstimate(5, 0.95), 2.333666],
  ["50 events, upper over estimate", upperOverEstimate(50, 0.95), 1.318375],
  ["ratio 2, equal arms", eventsToCompare(2, 0.5, 0.95, 0.8), 65.3456593],
  ["ratio 2, 20:80", eventsToCompare(2, 0.2, 0.95, 0.8), 102.102593],
  ["ratio 3, equal arms", eventsToCompare(3, 0.5, 0.95, 0.8), 26.0123004],
  ["E 5, first signal", powerAgainstBenchmark(5, 0.025, 2).signalFrom, 11],
  ["E 5, size", powerAgainstBenchmark(5, 0.025, 2).trueSize, 0.0136952686],
  ["E 5, power", powerAgainstBenchmark(5, 0.025, 2).power, 0.41696025],
  ["E 10, power", powerAgainstBenchmark(10, 0.025, 2).power, 0.702971602],
  ["E 20, power", powerAgainstBenchmark(20, 0.025, 2).power, 0.956771318],
]);
