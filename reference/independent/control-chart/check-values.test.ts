import {
  bernoulliDesign,
  bernoulliRunLength,
  countChartRunLength,
  decisionLimit,
  eventsToSignal,
  exposureCusum,
  shortExposureGaps,
  shortLineGaps,
  tChartByPower,
  uChart,
} from "../../../src/core/control-chart/index.ts";
import { incompleteGammaInverse } from "../../../src/core/distribution/index.ts";
import { checkPairs, type Pair } from "../../check.ts";

const values = (quantity: string, source: string, tolerance: number, unit: string, pairs: readonly Pair[]): void =>
  checkPairs({ quantity, source, tolerance, unit, kind: "independent" }, pairs);

values("Points to a signal of count charts, further means", "R 4.2.2, ppois", 1e-8, "relative", [
  ["1", countChartRunLength(4, 1), 273.235479],
  ["1 doubled", countChartRunLength(4, 2), 18.9922639],
  ["2 doubled", countChartRunLength(6, 4), 9.0355476],
  ["4", countChartRunLength(10, 4), 352.141676],
  ["4 doubled", countChartRunLength(10, 8), 5.43141137],
]);

const cloth = uChart([{ events: 21, exposure: 12 }], 153 / 107.5, { sigmas: 3, bound: 0.00135 });
values("u chart limit at an area of 12", "R 4.2.2, the formula of Montgomery, ch. 7", 1e-8, "relative", [
  ["cloth at 12, upper", cloth[0]?.upper ?? 0, 2.45642659],
  ["cloth at 12, lower", cloth[0]?.lower ?? 0, 0.390085034],
]);

// two gaps whose roots have just this mean and this range
const roots = [5.33307202 - 2.01978937 / 2, 5.33307202 + 2.01978937 / 2];
const power = tChartByPower(
  roots.map((root) => root ** 3.6),
  3,
);
values("t chart by the power of Nelson", "R 4.2.2, the formula of Nelson 1994", 1e-8, "relative", [
  ["upper", power.upper, 5084.24866],
  ["lower cut at zero", power.lower + 1, 1],
]);

// a gap of nought three times running has chance p^3
const p = 1 / 51.6842105;
values("Three gaps of nought", "p cubed, p = 1 / 51.6842105", 1e-12, "relative", [
  ["chance", shortLineGaps([0, 0, 0], 1 / p - 1), p ** 3],
  ["blind below: one gap of nought is likelier than 0.00135", Number(shortLineGaps([0], 1 / p - 1) > 0.00135), 1],
]);

const months = [
  { events: 3, expected: 0.00156678418 * 668 },
  { events: 2, expected: 0.00156678418 * 702 },
  { events: 5, expected: 0.00156678418 * 715 },
  { events: 3, expected: 0.00156678418 * 689 },
];
const path = exposureCusum(months, 2, { decision: 99, headStart: 1.6852405 });
values(
  "Sum of four months from 1.6852405 on",
  "R 4.2.2, the recursion, months 20 to 24 of an invented register",
  1e-7,
  "relative",
  [2.71807022, 3.00448209, 5.3499673, 6.34989455].map((sum, at) => [
    `month ${at + 21}`,
    path[at]?.value as number,
    sum,
  ]),
);

const doubled = (2 * 0.03) / (1 - 0.03) / (1 + (2 * 0.03) / (1 - 0.03));
const design = bernoulliDesign(0.03, doubled);
values("Bernoulli sums, further values", "R 4.2.2, solve", 1e-6, "relative", [
  ["120 doubled", bernoulliRunLength(0.04, { upStep: 34, decision: 120 }), 219.267035],
  ["a thousand lines at 3 per cent, steps up", design.upStep, 22],
  ["119 steps in log likelihood", 119 * design.fall, 3.5175],
]);

/** Events a year; the limit at ten years between false signals, months to see a doubling; events to that at five years. */
const scheme = [
  [3, 2.31682, 16.95, 6.1],
  [6, 2.8845, 11.25, 8.5],
  [10, 3.33172, 8.09, 10.5],
  [20, 3.96786, 5.01, 13.5],
  [30, 4.35092, 3.73, 15.3],
  [60, 5.01875, 2.21, 18.7],
  [90, 5.41445, 1.61, 20.7],
  [240, 6.38222, 0.73, 25.6],
] as const;
const chain = "R 4.2.2, Markov chain on a grid of 500 to 1200";
values(
  "Decision limits at ten years between false signals",
  chain,
  4e-4,
  "log likelihood ratio",
  scheme.map(([yearly, limit]) => [`${yearly} a year`, decisionLimit(2, 10 * yearly), limit]),
);
values(
  "Months to see a doubling at ten years between false signals",
  chain,
  0.0051,
  "months",
  scheme.map(([yearly, limit, delay]) => [
    `${yearly} a year`,
    (12 * eventsToSignal(2, limit, 2)) / (2 * yearly),
    delay,
  ]),
);
values(
  "Events to see a doubling at five years between false signals",
  chain,
  0.051,
  "events",
  scheme.map(([yearly, , , events]) => [
    `${yearly} a year`,
    eventsToSignal(2, decisionLimit(2, 5 * yearly), 2),
    events,
  ]),
);

/** Events a year; then limit, months to see a doubling, years between false signals: 3 sigma, and the first limit of 5 years. */
type Row = readonly [number, number, number, number];
const MONTHLY_SIGMA: readonly Row[] = [
  [3, 1, 11.1, 3.1],
  [6, 2, 12.5, 5.8],
  [10, 3, 11.3, 8.0],
  [20, 5, 8.3, 11],
  [30, 7, 7.5, 20],
  [60, 11, 3.3, 15],
  [90, 15, 2.3, 18],
  [240, 33, 1.2, 31],
];
const QUARTERLY_SIGMA: readonly Row[] = [
  [3, 3, 45.7, 34],
  [6, 5, 35.7, 56],
  [10, 7, 22.5, 59],
  [20, 11, 9.9, 46],
  [30, 15, 6.9, 54],
  [60, 26, 4.1, 75],
  [90, 36, 3.3, 81],
  [240, 83, 3.0, 127],
];
const MONTHLY: readonly Row[] = [
  [3, 2, 69.5, 39],
  [6, 2, 12.5, 5.8],
  [10, 3, 11.3, 8.0],
  [20, 5, 8.3, 11],
  [30, 6, 4.2, 5.9],
  [60, 10, 2.4, 6.1],
  [90, 14, 1.9, 8.1],
  [240, 30, 1.1, 6.2],
];
const QUARTERLY: readonly Row[] = [
  [3, 2, 15.7, 6.2],
  [6, 4, 16.2, 13],
  [10, 5, 7.8, 5.9],
  [20, 9, 5.5, 7.9],
  [30, 12, 4.1, 5.9],
  [60, 22, 3.3, 7.6],
  [90, 31, 3.1, 7.3],
  [240, 73, 3.0, 5.7],
];
const YEARLY: readonly Row[] = [
  [3, 4, 16.8, 5.4],
  [6, 8, 14.2, 6.5],
  [10, 13, 12.9, 7.4],
  [20, 24, 12.1, 6.4],
  [30, 35, 12.0, 6.4],
  [60, 66, 12.0, 5.0],
  [90, 98, 12.0, 5.4],
  [240, 253, 12.0, 5.2],
];

/** Half a unit of the last digit printed, two digits from ten on. */
const shown = (value: number) => (value >= 10 ? Math.round(value) : Math.round(10 * value) / 10);

function countCharts(name: string, rows: readonly Row[], perYear: number, limitAt: (mean: number) => number): void {
  const pairs = rows.flatMap(([yearly, limit, delay, years]): Pair[] => {
    const mean = yearly / perYear;
    return [
      [`${yearly} a year, limit`, limitAt(mean), limit],
      // the means of a base are printed to one decimal: half of that is the tolerance
      [`${yearly} a year, months`, (12 / perYear) * countChartRunLength(limit, 2 * mean), delay],
      [`${yearly} a year, years`, shown(countChartRunLength(limit, mean) / perYear), years],
    ];
  });
  values(`Count charts of a service: ${name}`, "R 4.2.2, ppois", 0.0551, "as each quantity, to its digits", pairs);
}
const sigma = (mean: number) => Math.floor(mean + 3 * Math.sqrt(mean));
const exactFor = (perYear: number) => (mean: number) => {
  let limit = 0;
  while (countChartRunLength(limit, mean) / perYear < 5) limit += 1;
  return limit;
};
countCharts("monthly, three sigma", MONTHLY_SIGMA, 12, sigma);
countCharts("quarterly, three sigma", QUARTERLY_SIGMA, 4, sigma);
countCharts("monthly, exact", MONTHLY, 12, exactFor(12));
countCharts("quarterly, exact", QUARTERLY, 4, exactFor(4));
countCharts("yearly, exact", YEARLY, 1, exactFor(1));

/** Months to see a doubling by sums of 1, 2, 4, 6 gaps at five years; one gap at 0.00135: years, then months. */
const gaps = [
  [3, 15.5, 11.0, 10.5, 12.8, 247, 741],
  [6, 15.2, 9.8, 7.3, 7.6, 123, 371],
  [10, 15.1, 9.2, 6.0, 5.5, 74, 222],
  [20, 15.1, 8.6, 4.8, 3.8, 37, 111],
  [60, 15.0, 8.1, 3.7, 2.5, 12, 37],
  [240, 15.0, 7.8, 3.0, 1.6, 3.1, 9.3],
] as const;
/** A block of gaps is short once in five years; when the rate doubles it is as short as one of twice the length. */
function monthsBySums(yearly: number, summed: number): number {
  const longest = incompleteGammaInverse(summed, "lower", summed / (5 * yearly));
  const seen = shortExposureGaps([2 * longest, ...Array<number>(summed - 1).fill(0)], 1);
  return (12 * summed) / seen / (2 * yearly);
}
values(
  "Sums of gaps: months to see a doubling",
  "R 4.2.2, qgamma and pgamma",
  0.0551,
  "months",
  gaps.flatMap(([yearly, ...months]) =>
    [1, 2, 4, 6].map((summed, at): Pair => [
      `${yearly} a year, ${summed}`,
      monthsBySums(yearly, summed),
      months[at] as number,
    ]),
  ),
);
values(
  "One gap at the chance of 0.00135: years between false signals, months to see a doubling",
  "R 4.2.2, pexp",
  0,
  "rounded as printed",
  gaps.flatMap(([yearly, , , , , years, months]): Pair[] => {
    const limit = -Math.log1p(-0.00135);
    return [
      [`${yearly} a year, years`, shown(1 / shortExposureGaps([limit], 1) / yearly), years],
      [`${yearly} a year, months`, shown(12 / shortExposureGaps([2 * limit], 1) / (2 * yearly)), months],
    ];
  }),
);
