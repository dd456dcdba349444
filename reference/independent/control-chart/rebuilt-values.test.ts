/**
 * Values printed without their inputs. The inputs were found again from the printed figures, and docs/decision/0007-statistics.md says
 * how and which could not be.
 */
import {
  decisionLimit,
  eventsToSignal,
  predictedLessSeen,
  riskAdjustedCusum,
  uChart,
} from "../../../src/core/control-chart/index.ts";
import { incompleteGammaInverse } from "../../../src/core/distribution/index.ts";
import { checkAgainst } from "../../check.ts";

const cloth = uChart(
  [
    { events: 14, exposure: 10 },
    { events: 20, exposure: 13 },
  ],
  153 / 107.5,
  { sigmas: 3, bound: 0.00135 },
);

/**
 * Of all ways to part a sum of predicted risks of 0.40 in whole per cents among at most twelve lines with four events,
 * one set of ten ends at 2.41237524; the 0.03 left are two lines at the floor before the first event.
 */
const lines = [
  { risk: 0.02, event: false },
  { risk: 0.01, event: false },
  ...[10, 6, 5, 4, 3, 3, 2, 2, 1, 1].map((perCent, at) => ({ risk: perCent / 100, event: at < 4 })),
];

checkAgainst(
  {
    quantity: "Lower limits of cloth, and twelve lines by risk-adjusted sum and by predicted less seen",
    unit: "absolute",
    source: "R 4.2.2, the formulas of Montgomery and of Steiner and others 2000; risks found again",
    kind: "independent",
    tolerance: 6e-9,
    comparisons: 4,
  },
  (compare) => {
    compare("cloth at 10, lower", cloth[0]?.lower as number, 0.29147393);
    compare("cloth at 13, lower", cloth[1]?.lower as number, 0.430617437);
    const path = riskAdjustedCusum(lines, 2, { decision: 99 });
    compare("sum after twelve lines", path.at(-1)?.value as number, 2.41237524);
    compare("predicted less seen", predictedLessSeen(lines).at(-1) as number, -3.6);
  },
);

/** Events of the base; years between false signals at most, in one service of ten; months to a doubling at least, in one. */
const bases = [
  [10, 0.63, 12.1],
  [20, 1.1, 8.6],
  [50, 1.88, 6.5],
  [100, 2.5, 5.6],
] as const;

checkAgainst(
  {
    quantity: "What the doubt about a base does to false signals and to delays",
    unit: "years or months, rounded as printed",
    source: "R 4.2.2, Markov chain and qgamma: the base says 20 events a year, a limit for 5 years",
    kind: "independent",
    tolerance: 1e-9,
    comparisons: 9,
  },
  (compare) => {
    const limit = decisionLimit(2, 5 * 20);
    /** The base over the true rate: so many events seen where so many were to be expected. */
    const quantile = (events: number, share: number) => incompleteGammaInverse(events, "lower", share) / events;
    for (const [events, years, months] of bases) {
      const [low, high] = [quantile(events, 0.1), quantile(events, 0.9)];
      // 20 a year is what the base says, so the true rate is 20 / (base over truth)
      const between = (eventsToSignal(2, limit, 1 / low) * low) / 20;
      const toDoubling = (12 * eventsToSignal(2, limit, 2 / high) * high) / 40;
      compare(`${events} events, years`, Math.round(100 * between) / 100, years);
      compare(`${events} events, months`, Math.round(10 * toDoubling) / 10, months);
    }
    compare("without doubt, months", Math.round((10 * 12 * eventsToSignal(2, limit, 2)) / 40) / 10, 4);
  },
);
