import {
  baseRate,
  bernoulliRunLength,
  countCusum,
  countCusumRunLength,
  eventsToSignal,
  ewmaChart,
  exposureCusum,
  gChartLimits,
  overdispersion,
  riskAdjustedCusum,
  riskAdjustedRunLength,
  riskWeight,
  runFindings,
  shortLineGaps,
  tChartByPower,
  uChart,
} from "../../../src/core/control-chart/index.ts";
import { checkAgainst } from "../../check.ts";
import { atLeast, atMost, poissonTerms } from "../incidence/slow-counts.ts";
import { seededNumbers } from "../seeded-numbers.ts";
import { chainEventsToSignal, playedCount, playedRunLength, slowCusum, slowEwma } from "./slow-charts.ts";

function twin(
  quantity: string,
  source: string,
  tolerance: number,
  comparisons: number,
  pairs: () => readonly (readonly [string, number, number])[],
): void {
  checkAgainst(
    { quantity, unit: "relative, at least 1", source, kind: "by-hand", tolerance, comparisons },
    (compare) => {
      for (const [place, ours, theirs] of pairs())
        compare(place, ours === theirs ? 0 : (ours - theirs) / Math.max(1, Math.abs(theirs)), 0);
    },
  );
}

const generated = (seed: number, length: number) => {
  const { whole, share } = seededNumbers(seed);
  return Array.from({ length }, () => ({ events: whole(0, 9), exposure: 0.5 + 5 * share() }));
};

twin("Generated u charts", "sums of Poisson terms", 1e-12, 160, () => {
  const points = generated(81, 40);
  const base = baseRate(points);
  return uChart(points, base, { sigmas: 3, bound: 0.01 }).flatMap((point, at) => {
    const { events, exposure } = points[at] as (typeof points)[number];
    const terms = poissonTerms(base * exposure, 200);
    const [more, fewer] = [atLeast(terms, events, "exact"), atMost(terms, events, "exact")];
    return [
      [`point ${at}, tail above`, point.asManyOrMore, more],
      [`point ${at}, tail below`, point.asFewOrFewer, fewer],
      [`point ${at}, high`, Number(point.signal === "high"), Number(more < 0.01)],
      [`point ${at}, low`, Number(point.signal === "low"), Number(fewer < 0.01)],
    ] as const;
  });
});

twin("Generated EWMA charts", "sums over the past", 1e-12, 120, () => {
  const points = generated(82, 40);
  const base = baseRate(points);
  const slow = slowEwma(points, base, 0.2);
  return ewmaChart(points, base, { weight: 0.2, sigmas: 2 }).flatMap((point, at) => {
    const { value, variance } = slow[at] as (typeof slow)[number];
    return [
      [`point ${at}`, point.value, value],
      [`point ${at}, upper`, point.upper, base + 2 * Math.sqrt(variance)],
      [`point ${at}, signal`, Number(point.signal === "high"), Number(value > base + 2 * Math.sqrt(variance))],
    ] as const;
  });
});

twin("EWMA of weight one", "the u chart itself", 1e-14, 20, () => {
  const points = generated(83, 20);
  const shewhart = uChart(points, 1.2, { sigmas: 3, bound: 0.01 });
  return ewmaChart(points, 1.2, { weight: 1, sigmas: 3 }).map(
    (point, at) => [`point ${at}`, point.upper, shewhart[at]?.upper ?? 0] as const,
  );
});

twin("Overdispersion of generated points", "written out", 1e-12, 20, () =>
  Array.from({ length: 10 }, (_, trial) => generated(840 + trial, 12)).flatMap((points, trial) => {
    const all =
      points.reduce((sum, point) => sum + point.events, 0) / points.reduce((sum, point) => sum + point.exposure, 0);
    const expected = points.map((point) => all * point.exposure);
    const z = points.map((point, at) => (point.events - (expected[at] as number)) / Math.sqrt(expected[at] as number));
    let ranges = 0;
    for (let at = 1; at < z.length; at += 1) ranges += Math.abs((z[at] as number) - (z[at - 1] as number));
    const ours = overdispersion(points);
    return [
      [`trial ${trial}, sigma z`, ours.sigmaZ, (ranges / (z.length - 1)) * (Math.sqrt(Math.PI) / 2)],
      [
        `trial ${trial}, X2`,
        ours.chiSquare,
        points.reduce(
          (sum, point, at) => sum + (point.events - (expected[at] as number)) ** 2 / (expected[at] as number),
          0,
        ),
      ],
    ] as const;
  }),
);

twin("Generated CUSUM paths", "plain sum above its lowest point", 1e-12, 180, () => {
  const points = generated(85, 60);
  const high = { decision: 1e9 };
  const counts = points.map((point) => point.events);
  const exposed = points.map(({ events, exposure }) => ({ events, expected: exposure * 1.5 }));
  const outcomes = points.map(({ events, exposure }) => ({ event: events > 6, risk: exposure / 10 }));
  const compared = (name: string, ours: readonly { value: number }[], steps: readonly number[]) => {
    const slow = slowCusum(steps);
    return ours.map(({ value }, at) => [`${name}, step ${at}`, value, slow[at] as number] as const);
  };
  return [
    ...compared(
      "counts",
      countCusum(counts, 4.5, high),
      counts.map((count) => count - 4.5),
    ),
    ...compared(
      "exposure",
      exposureCusum(exposed, 2, high),
      exposed.map(({ events, expected }) => Math.log(2 ** events / Math.exp(expected))),
    ),
    ...compared(
      "risk-adjusted",
      riskAdjustedCusum(outcomes, 2, high),
      // likelihood ratio of the outcome under twice the odds
      outcomes.map(({ event, risk }) => {
        const worse = (2 * risk) / (1 - risk + 2 * risk);
        return Math.log(event ? worse / risk : (1 - worse) / (1 - risk));
      }),
    ),
  ];
});

twin("Geometric limits of generated gaps", "adding chances one by one", 1e-12, 40, () => {
  const { whole } = seededNumbers(86);
  return Array.from({ length: 10 }, () => Array.from({ length: 12 }, () => whole(0, 90))).flatMap((gaps, trial) => {
    const ours = gChartLimits(gaps, { bound: 0.01, sigmas: 3 });
    const p = 12 / (gaps.reduce((sum, gap) => sum + gap, 0) + 12);
    const reached = (bound: number) => {
      let below = p;
      let gap = 0;
      for (; below < bound; gap += 1) below += p * (1 - p) ** (gap + 1);
      return gap;
    };
    // two gaps add up to s or less: every pair counted
    let pairs = 0;
    for (let one = 0; one <= 20; one += 1)
      for (let two = 0; one + two <= 20; two += 1) pairs += p * p * (1 - p) ** (one + two);
    return [
      [`trial ${trial}, median`, ours.median, reached(0.5)],
      [`trial ${trial}, lower`, ours.lower, reached(0.01)],
      [`trial ${trial}, upper`, ours.upper, reached(0.99)],
      [`trial ${trial}, two gaps`, shortLineGaps([9, 11], ours.mean), pairs],
    ] as const;
  });
});

twin("Runs and crossings of generated points", "reading them as letters", 0, 40, () => {
  const { whole } = seededNumbers(87);
  return Array.from({ length: 20 }, () => Array.from({ length: 24 }, () => whole(0, 6))).flatMap((values, trial) => {
    const letters = values
      .filter((value) => value !== 3)
      .map((value) => (value > 3 ? "a" : "b"))
      .join("");
    const ours = runFindings(values, 3);
    const runs = letters.match(/a+|b+/g) ?? [];
    return [
      [`trial ${trial}, longest`, ours.longestRun, Math.max(...runs.map((run) => run.length))],
      [`trial ${trial}, crossings`, ours.crossings, runs.length - 1],
    ] as const;
  });
});

// Seeded, so the same in every run; 2 per cent is about three standard errors at these numbers of runs.
twin("Run lengths of CUSUMs", "playing them, seeded", 0.02, 5, () => {
  const { share } = seededNumbers(88);
  const risks = [0.02, 0.05, 0.2];
  const mix = risks.map((risk) => ({ risk, weight: 1 }));
  const design = { oddsRatio: 2, decision: 2.5, cells: 400 };
  const line = (trueOddsRatio: number) => () => {
    const risk = risks[Math.floor(share() * 3)] as number;
    const chance = (trueOddsRatio * risk) / (1 - risk + trueOddsRatio * risk);
    return riskWeight({ event: share() < chance, risk }, 2);
  };
  return [
    [
      "counts, mean 1",
      countCusumRunLength(1, { reference: 1.5, decision: 4, gridPerEvent: 2 }),
      playedRunLength(20_000, 4, () => playedCount(1, share) - 1.5),
    ],
    [
      "Bernoulli, 0.04",
      bernoulliRunLength(0.04, { upStep: 34, decision: 80 }),
      playedRunLength(20_000, 80, () => (share() < 0.04 ? 34 : -1)),
    ],
    [
      "risk-adjusted, in control",
      riskAdjustedRunLength(mix, { ...design, trueOddsRatio: 1 }),
      playedRunLength(12_000, 2.5, line(1)),
    ],
    [
      "risk-adjusted, doubled odds",
      riskAdjustedRunLength(mix, { ...design, trueOddsRatio: 2 }),
      playedRunLength(20_000, 2.5, line(2)),
    ],
    [
      "watched at events, doubled",
      eventsToSignal(2, 3, 2),
      // the fall before an event stops at zero, then the event lifts the sum
      (() => {
        let events = 0;
        for (let run = 0; run < 20_000; run += 1)
          for (let sum = 0; sum < 3; events += 1) sum = Math.max(0, sum + Math.log(share()) / 2) + Math.LN2;
        return events / 20_000;
      })(),
    ],
  ] as const;
});

twin("Events to a signal, watched at events", "chain on 400 cells", 4e-3, 6, () =>
  (
    [
      [2, 1.2, 1],
      [2, 2, 1],
      [2, 2.5, 2],
      [2, 3, 3],
      [1.5, 2, 1.5],
      [3, 3, 1],
    ] as const
  ).map(
    ([ratio, decision, trueRatio]) =>
      [
        `R ${ratio}, decision ${decision}, true ${trueRatio}`,
        eventsToSignal(ratio, decision, trueRatio),
        chainEventsToSignal(ratio, decision, trueRatio, 400),
      ] as const,
  ),
);

twin("t charts by power of generated gaps", "logarithms and the range of two normals, sqrt(4 / pi)", 1e-12, 24, () => {
  const { share } = seededNumbers(88);
  return Array.from({ length: 8 }, () => Array.from({ length: 10 }, () => 1 + 900 * share() ** 2)).flatMap(
    (gaps, trial) => {
      const roots = gaps.map((gap) => Math.exp(Math.log(gap) / 3.6));
      let [sum, steps] = [roots[0] as number, 0];
      for (let at = 1; at < roots.length; at += 1) {
        sum += roots[at] as number;
        steps += Math.max(roots[at] as number, roots[at - 1] as number);
        steps -= Math.min(roots[at] as number, roots[at - 1] as number);
      }
      const [middle, half] = [sum / 10, (2 * (steps / 9)) / Math.sqrt(4 / Math.PI)];
      const back = (root: number) => (root > 0 ? Math.exp(3.6 * Math.log(root)) : 0);
      const ours = tChartByPower(gaps, 2);
      return [
        [`trial ${trial}, centre`, ours.centre, back(middle)],
        [`trial ${trial}, lower`, ours.lower, back(middle - half)],
        [`trial ${trial}, upper`, ours.upper, back(middle + half)],
      ] as const;
    },
  );
});
