import { readFileSync } from "node:fs";
import {
  bernoulliRunLength,
  countChartRunLength,
  countCusumRunLength,
  eventsToSignal,
  ewmaChart,
  gChartLimits,
  longExposureGap,
  predictedLessSeen,
  riskAdjustedCusum,
  runLimits,
  shortExposureGaps,
  shortLineGaps,
  tChartByPower,
  tChartLimits,
} from "../../../src/core/control-chart/index.ts";
import { standardisedRatio } from "../../../src/core/incidence/index.ts";
import { checkAgainst } from "../../check.ts";

type Numbers = readonly [number, number, number, number, number];

/** Made by control-chart-golden.R beside this file. */
const { rows } = JSON.parse(readFileSync(new URL("control-chart-golden.json", import.meta.url), "utf8")) as {
  readonly rows: readonly { readonly kind: string; readonly input: Numbers; readonly value: readonly number[] }[];
};

function against(
  kind: string,
  quantity: string,
  source: string,
  tolerance: number,
  comparisons: number,
  ours: (input: Numbers) => readonly number[],
): void {
  const set = { quantity, unit: "relative", source: `R 4.2.2, ${source}`, kind: "independent" } as const;
  checkAgainst({ ...set, tolerance, comparisons }, (compare) => {
    for (const { input, value } of rows.filter((row) => row.kind === kind))
      ours(input).forEach((mine, at) => {
        const theirs = value[at] as number;
        compare(`${input.join(", ")}, value ${at + 1}`, mine === theirs ? 0 : mine / theirs - 1, 0);
      });
  });
}

against(
  "count",
  "Run length of count CUSUMs, own chain",
  "solve",
  1e-9,
  8,
  ([mean, reference, decision, gridPerEvent, headStart]) => [
    countCusumRunLength(mean, { reference, decision, gridPerEvent, headStart }),
  ],
);
against("bernoulli", "Run length of Bernoulli CUSUMs, own chain", "solve", 1e-9, 6, ([chance, upStep, decision]) => [
  bernoulliRunLength(chance, { upStep, decision }),
]);
// 200,000 runs: the largest standard error is a quarter of one per cent
against("events", "Events to a signal", "200,000 simulated runs", 0.008, 4, ([ratio, decision, trueRatio]) => [
  eventsToSignal(ratio, decision, trueRatio),
]);
against("countChart", "Points to a signal of a count chart", "ppois", 1e-10, 15, ([limit, mean]) => [
  countChartRunLength(limit, mean),
]);
against("gap", "Limits of g charts", "qgeom and pnbinom", 1e-11, 36, ([bound, mean]) => {
  // whole gaps with exactly the mean asked for: 19 or 2 of them
  const gaps = mean === 900 ? [0, 1800] : mean === 2.5 ? [0, 5] : [...Array.from({ length: 18 }, () => 50), 63];
  const { median, lower, upper } = gChartLimits(gaps, { bound, sigmas: 3 });
  return [median, lower, upper, shortLineGaps([9, 9, 9, 9, 8], mean)];
});
against("exposure", "Limits of t charts", "qexp, pgamma and pexp", 1e-11, 45, ([bound, mean]) => {
  const { median, lower, upper } = tChartLimits([0, 2 * mean], bound);
  return [median, lower, upper, shortExposureGaps([9, 9, 9, 9, 8], mean), longExposureGap(44, mean)];
});
against("run", "Limits of runs and crossings", "qbinom", 0, 14, ([useful]) => {
  const { longest, fewest } = runLimits(useful);
  return [longest, fewest];
});
against("ratio", "Standardised ratio by mid-P", "uniroot and ppois", 1e-8, 21, ([observed, expected]) => {
  const ours = standardisedRatio({ observed, expected }, { level: 0.95, method: "mid-P", leastExpected: 1 });
  if (typeof ours === "string") throw new Error(ours);
  return [ours.lower ?? 0, ours.upper, ours.chanceMidP];
});
against("power", "Limits of t charts by the power of Nelson", "mean and diff of the roots", 1e-11, 9, (gaps) => {
  const { centre, lower, upper } = tChartByPower(gaps, 3);
  return [centre, lower, upper];
});
against(
  "risk",
  "Risk-adjusted sum and predicted less seen of twelve lines",
  "Reduce and cumsum",
  1e-11,
  24,
  (input) => {
    const outcomes = input.slice(0, 12).map((risk, at) => ({ risk, event: input[12 + at] === 1 }));
    return [
      ...riskAdjustedCusum(outcomes, 2, { decision: 99 }).map(({ value }) => value),
      ...predictedLessSeen(outcomes),
    ];
  },
);
against("ewma", "Averages of ten months and their limits", "the recursion", 1e-12, 40, ([weight, ...rest]) => {
  const points = rest.slice(0, 10).map((events, at) => ({ events, exposure: rest[10 + at] as number }));
  return ewmaChart(points, 0.0016, { weight, sigmas: 3 }).flatMap(({ value, upper }) => [value, upper]);
});
