import type { Pair } from "../../check.ts";
import {
  compareStandardisedRatios,
  countLimits,
  expectedEvents,
  figureForm,
  incidenceRate,
  largeSampleRatio,
  powerAgainstBenchmark,
  proportionDifference,
  proportionLimits,
  rateDifference,
  rateRatio,
  standardisedRatio,
  surveillanceRatio,
  upperOverEstimate,
  upperShareAfterNone,
  type CountMethod,
} from "../../../src/core/incidence/index.ts";
import { poissonChance } from "../../../src/core/distribution/index.ts";
import { day } from "../../../src/core/quantity/index.ts";
import { largestRSquared, peopleForPrediction } from "../../../src/core/regression/index.ts";
import { both, known, seen, values } from "./program-values.ts";

/** Events; exact, mid-P and Byar limits. */
const counts = [
  [1, 0.025317808, 5.57164339, 0.0500203448, 4.93186052, 0.0130721329, 5.56375558],
  [3, 0.618672123, 8.76727307, 0.763096298, 8.16446921, 0.602972571, 8.7653644],
  [5, 1.62348639, 11.6683321, 1.83199481, 11.0824157, 1.61134772, 11.6681641],
  [10, 4.7953887, 18.390356, 5.07952185, 17.8248537, 4.78744991, 18.3914586],
  [20, 12.2165196, 30.8883779, 12.5597385, 30.3396011, 12.2114288, 30.8898804],
  [100, 81.3639913, 121.626794, 81.7918211, 121.103491, 81.3621055, 121.627938],
] as const;
values("Limits of seven counts three ways", "R 4.2.2, qchisq, uniroot, the formula of Byar", [
  ...counts.flatMap(([x, ...theirs]) =>
    (["exact", "mid-P", "Byar"] as const).flatMap((method, at) =>
      both(`${x}, ${method}`, countLimits(x, 0.95, method), theirs[2 * at] as number, theirs[2 * at + 1] as number),
    ),
  ),
  ["none, exact", countLimits(0, 0.95, "exact").upper, 3.68887945],
  ["none, mid-P", countLimits(0, 0.95, "mid-P").upper, 2.99573227],
]);

/** The chance that limits of a count hold its mean, added up over every count that matters. */
function coverage(mean: number, method: CountMethod): number {
  let sum = 0;
  for (let x = 0; x < 80; x += 1) {
    const { lower, upper } = countLimits(x, 0.95, method);
    if (lower <= mean && mean <= upper) sum += poissonChance(x, mean);
  }
  return sum;
}
values(
  "How often limits of 95 per cent hold the mean",
  "R 4.2.2, dpois over all counts",
  [
    ["3.07, exact", coverage(3.07, "exact"), 0.986511],
    ["3.07, mid-P", coverage(3.07, "mid-P"), 0.94009],
    ["3.07, Byar", coverage(3.07, "Byar"), 0.986511],
    ["10.3, exact", coverage(10.3, "exact"), 0.957411],
    ["10.3, mid-P", coverage(10.3, "mid-P"), 0.957411],
    ["10.3, Byar", coverage(10.3, "Byar"), 0.957411],
  ],
  1e-6,
);

const women = [seen(41, 28_010), seen(15, 19_017)] as const;
const exact = known(rateRatio(...women, 0.95, "exact"));
const midP = known(rateRatio(...women, 0.95, "mid-P"));
const wald = known(largeSampleRatio(...women, 0.95));
const perTenThousand = rateDifference(...women, 0.95);
values("Rate ratio of 41 and 15", "R 4.2.2, poisson.test, uniroot, qnorm", [
  ["ratio, not the median-unbiased 1.84297656", exact.ratio, 1.85575866],
  ...both("exact", exact, 1.00568406, 3.60930031),
  ["p by small chances", exact.twoSidedSmallChances, 0.0408520263],
  ...both("mid-P", midP, 1.04107524, 3.44942276),
  ["mid-P", midP.twoSidedMidP, 0.0354574218],
  ...both("Wald", wald, 1.027226, 3.35256331),
  ["chi", wald.chi, 2.08177648],
  ["difference per 10,000", 10 * perTenThousand.perThousand, 6.74994997],
  ["difference, lower", 10 * perTenThousand.lower, 0.749272068],
  ["difference, upper", 10 * perTenThousand.upper, 12.7506279],
]);

const textbook = [seen(136, 22_050), seen(1709, 127_650)] as const;
const apart = rateDifference(...textbook, 0.9);
const printedRatio = known(largeSampleRatio(...textbook, 0.9));
values("Rate difference and ratio of a textbook", "R 4.2.2; to its digits Rothman (ebrary.net/72033)", [
  ["difference", apart.perThousand, -7.22037033],
  ...both("difference", apart, -8.24044578, -6.20029487),
  ["ratio", printedRatio.ratio, 0.460690303],
  ...both("ratio", printedRatio, 0.397890291, 0.533402197),
  ["printed 0.46", Math.round(100 * printedRatio.ratio) / 100, 0.46],
  ["printed 0.40", Math.round(100 * printedRatio.lower) / 100, 0.4],
  ["printed 0.53", Math.round(100 * printedRatio.upper) / 100, 0.53],
]);

const ratios = [
  [17, 100_025, 3, 122_268, 6.9267883, 2.0035107, 36.8923336, 2.21022638, 29.6302521],
  [8, 78_531, 1, 77_932, 7.93897951, 1.06437286, 352.273605, 1.27000235, 177.584032],
  [6, 2150, 1, 1890, 5.2744186, 0.639911625, 242.610538, 0.778893282, 122.159732],
] as const;
const oneSided = known(rateRatio(seen(4, 2150), seen(0, 1890), 0.95, "exact"));
values("Rate ratios of few events", "R 4.2.2, poisson.test and uniroot", [
  ...ratios.flatMap(([x, t, y, s, ratio, ...limits]): Pair[] => {
    const byExact = known(rateRatio(seen(x, t), seen(y, s), 0.95, "exact"));
    return [
      [`${x} v ${y}`, byExact.ratio, ratio],
      ...both(`${x} v ${y}, exact`, byExact, limits[0], limits[1]),
      ...both(`${x} v ${y}, mid-P`, known(rateRatio(seen(x, t), seen(y, s), 0.95, "mid-P")), limits[2], limits[3]),
    ];
  }),
  ["4 v none, lower", oneSided.lower, 0.580295068],
  ["4 v none, upper has no end", Number(oneSided.upper === Infinity), 1],
  ["4 v none, p", oneSided.twoSidedSmallChances, 0.128108457],
  ["4 v none, mid-P lower", known(rateRatio(seen(4, 2150), seen(0, 1890), 0.95, "mid-P")).lower, 0.788585477],
]);

const ratioOf = (observed: number, expected: number, method: CountMethod) =>
  known(standardisedRatio({ observed, expected }, { level: 0.95, method, leastExpected: 1 }));
const expectedSum = [
  [1850, 1.4, 2.59],
  [3120, 1.1, 3.432],
  [5400, 0.6, 3.24],
  [640, 1.6, 1.024],
] as const;
/** Observed, expected, ratio, mid-P limits, exact limits, p. */
const sirs = [
  [4, 3.3, 1.21212121, 0.385134898, 2.9237696, 0.330262234, 3.10351172, 0.657071427],
  [2, 2.04, 0.980392157, 0.164376988, 3.23919595, 0.118730039, 3.54151356, 0.938861696],
  [2, 1.632, 1.2254902, 0.205471235, 4.04899494, 0.148412548, 4.42689195, 0.710286964],
  [8, 3.59, 2.22841226, 1.03492918, 4.2316143, 0.962070244, 4.39086051, 0.0418478368],
  [53, 48.62, 1.09008638, 0.824810562, 1.41493038, 0.816549505, 1.42585983, 0.521519834],
] as const;
values("Standardised ratios, mid-P and exact", "R 4.2.2, qchisq and uniroot", [
  ...sirs.flatMap(([observed, expected, ratio, low, high, exactLow, exactHigh, p]): Pair[] => {
    const [mid, whole] = [ratioOf(observed, expected, "mid-P"), ratioOf(observed, expected, "exact")];
    return [
      [`${observed} of ${expected}`, mid.ratio, ratio],
      [`${observed} of ${expected}, mid-P lower`, mid.lower as number, low],
      [`${observed} of ${expected}, mid-P upper`, mid.upper, high],
      [`${observed} of ${expected}, exact lower`, whole.lower as number, exactLow],
      [`${observed} of ${expected}, exact upper`, whole.upper, exactHigh],
      [`${observed} of ${expected}, p`, mid.chanceMidP, p],
    ];
  }),
  ["none of 1.5, exact upper", ratioOf(0, 1.5, "exact").upper, 2.45925297],
  ["none of 1.5, no lower", Number(ratioOf(0, 1.5, "mid-P").lower === undefined), 1],
  [
    "0.9 expected: none is shown",
    Number(
      standardisedRatio({ observed: 2, expected: 0.9 }, { level: 0.95, method: "mid-P", leastExpected: 1 }) ===
        "too few expected",
    ),
    1,
  ],
  ["120 of 97.5", ratioOf(120, 97.5, "mid-P").ratio, 1.23076923],
  ["120 of 97.5, mid-P upper", ratioOf(120, 97.5, "mid-P").upper, 1.46635094],
  ["120 of 97.5, Byar lower", ratioOf(120, 97.5, "Byar").lower as number, 1.02041263],
  ["120 of 97.5, Byar upper", ratioOf(120, 97.5, "Byar").upper, 1.47170934],
  ...expectedSum.map(([days, rate, sum]): Pair => [
    `${days} days at ${rate}`,
    expectedEvents([{ days: day(days), referencePerThousand: rate }]),
    sum,
  ]),
]);

const survey = (observed: number, expected: number) =>
  known(surveillanceRatio({ observed, expected }, { level: 0.95, leastExpected: 1, midPUpTo: 100 }));
values("A ratio as the surveillance standard prints it", "R 4.2.2; CDC's published macro SIRcomp of 2014", [
  ...both(
    "120 of 97.5",
    { lower: survey(120, 97.5).lower as number, upper: survey(120, 97.5).upper },
    1.02041263,
    1.47170934,
  ),
  ["120 of 97.5, p", survey(120, 97.5).chanceByar as number, 0.0302183827],
  ["53 of 48.62, lower", survey(53, 48.62).lower as number, 0.824810562],
  ["53 of 48.62 is by mid-P alone", Number(survey(53, 48.62).chanceByar === undefined), 1],
  ["90 of 100.5 is by Byar", Number(survey(90, 100.5).method === "Byar"), 1],
]);

const pair = known(
  compareStandardisedRatios({ observed: 3, expected: 6.1 }, { observed: 12, expected: 7.4 }, 0.95, "mid-P"),
);
const nought = known(
  compareStandardisedRatios({ observed: 0, expected: 3.2 }, { observed: 6, expected: 2.9 }, 0.95, "mid-P"),
);
values("Two standardised ratios, further values", "R 4.2.2, uniroot", [
  ["3 and 12", pair.ratio, 0.303278689],
  ...both("3 and 12", pair, 0.0686212536, 1.00660166),
  ["0 and 6", nought.ratio + 1, 1],
  ["0 and 6, lower", nought.lower + 1, 1],
]);

const share = (x: number, n: number, method: "Wilson" | "exact") => proportionLimits(x, n, 0.95, method);
const differ = (x: number, n: number, y: number, m: number) =>
  proportionDifference({ events: x, number: n }, { events: y, number: m }, 0.95).difference;
values("Proportions, further values", "R 4.2.2, binom.test and prop.test; Newcombe 1998 (from memory)", [
  ...both("81/263, exact", share(81, 263, "exact"), 0.252736746, 0.367621923),
  ["15/148, upper", share(15, 148, "Wilson").upper, 0.160487242],
  ["0/20, exact upper", share(0, 20, "exact").upper, 0.168433471],
  ["56/70 - 48/80", differ(56, 70, 48, 80), 0.2],
  ["9/10 - 3/10", differ(9, 10, 3, 10), 0.6],
  ["10/10 - 0/20", differ(10, 10, 0, 20), 1],
  ["none in 30, two-sided", share(0, 30, "exact").upper, 0.115703308],
  ["none in 100, two-sided", share(0, 100, "exact").upper, 0.0362166926],
  ["none in 1000, near 3/n", Math.round(1e4 * upperShareAfterNone(1000, 0.95)) / 1e4, 0.003],
]);

values(
  "Guards of sparse data, further values",
  "R 4.2.2, exact Poisson; Riley and others 2019",
  [
    ["none in 500 days, two-sided", incidenceRate(seen(0, 500), 0.95, "exact").upper, 7.37775891],
    ["10 events, upper over estimate", upperOverEstimate(10, 0.95), 1.839036],
    ["20 events, upper over estimate", upperOverEstimate(20, 0.95), 1.544419],
    ["4 events: the count first", Number(figureForm(4, 5) === "count only, interval first"), 1],
    ["E 10, first signal", powerAgainstBenchmark(10, 0.025, 2).signalFrom, 18],
    ["E 20, first signal", powerAgainstBenchmark(20, 0.025, 2).signalFrom, 30],
    ["R2 0.10", peopleForPrediction(8, 0.9, 0.1), 679.215],
    ["largest R2 at 3 per cent", largestRSquared(0.03), 0.236226757],
  ],
  1e-6,
);
