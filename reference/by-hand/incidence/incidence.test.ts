import {
  byarChance,
  clusterAgainstBaseline,
  compareStandardisedRatios,
  countAgainstExpected,
  countLimits,
  largeSampleRatio,
  mantelHaenszel,
  proportionLimits,
  rateRatio,
  rateWithMissingEnds,
  shareWithMissingEnds,
  sparseGuards,
  standardisedRatio,
  type EventsInDays,
} from "../../../src/core/incidence/index.ts";
import { day } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";
import { seededNumbers } from "../seeded-numbers.ts";
import {
  atLeast,
  atMost,
  binomialTerms,
  poissonTerms,
  slowCountLimits,
  slowShareLimits,
  slowSmallChances,
} from "./slow-counts.ts";

const seen = (events: number, days: number): EventsInDays<"exact"> => ({ events, days: day(days), clock: "exact" });
const METHODS = ["exact", "mid-P"] as const;
const relative = (ours: number, theirs: number) =>
  ours === theirs ? 0 : (ours - theirs) / Math.max(Math.abs(theirs), 1e-3);

function twin(quantity: string, comparisons: number, pairs: () => (readonly [string, number, number])[]): void {
  checkAgainst(
    { quantity, unit: "relative", source: "sums of terms and halving", kind: "by-hand", tolerance: 1e-9, comparisons },
    (compare) => {
      for (const [place, ours, theirs] of pairs()) compare(place, relative(ours, theirs), 0);
    },
  );
}

twin("Limits of generated counts", 240, () => {
  const { whole, share } = seededNumbers(61);
  return Array.from({ length: 60 }, () => [whole(0, 60), 0.8 + share() * 0.19] as const).flatMap(([events, level]) =>
    METHODS.flatMap((method) => {
      const { lower, upper } = countLimits(events, level, method);
      const slow = slowCountLimits(events, level, method);
      return [
        [`${events} at ${level}, ${method} lower`, lower, slow[0]] as const,
        [`${events} at ${level}, ${method} upper`, upper, slow[1]] as const,
      ];
    }),
  );
});

twin("Limits of generated proportions", 120, () => {
  const { whole } = seededNumbers(62);
  return Array.from({ length: 30 }, () => whole(1, 60)).flatMap((number) => {
    const events = whole(0, number);
    return METHODS.flatMap((method) => {
      const { lower, upper } = proportionLimits(events, number, 0.95, method);
      const slow = slowShareLimits(events, number, 0.95, method);
      return [
        [`${events} of ${number}, ${method} lower`, lower, slow[0]] as const,
        [`${events} of ${number}, ${method} upper`, upper, slow[1]] as const,
      ];
    });
  });
});

twin("Surprise of generated counts and splits", 180, () => {
  const { whole, share } = seededNumbers(63);
  return Array.from({ length: 30 }, () => [whole(0, 25), 0.2 + 20 * share(), whole(1, 40), share()] as const).flatMap(
    ([events, expected, total, part]) => {
      const terms = poissonTerms(expected, 400);
      const ours = countAgainstExpected(events, expected);
      const first = whole(0, total);
      const days = 100 + 900 * part;
      const split = rateRatio(seen(first, days), seen(total - first, 400), 0.95, "exact");
      if (typeof split === "string") throw new Error(split);
      const splitTerms = binomialTerms(total, days / (days + 400));
      const cluster = clusterAgainstBaseline(seen(first, days), seen(total - first, 400));
      const doubled = (law: readonly number[], k: number) =>
        Math.min(1, 2 * Math.min(atLeast(law, k, "mid-P"), atMost(law, k, "mid-P")));
      const place = `${events} of ${expected}; ${first} of ${total}`;
      return [
        [`${place}, small chances`, ours.twoSidedSmallChances, slowSmallChances(terms, events)] as const,
        [`${place}, mid-P`, ours.twoSidedMidP, doubled(terms, events)] as const,
        [`${place}, split small chances`, split.twoSidedSmallChances, slowSmallChances(splitTerms, first)] as const,
        [`${place}, split mid-P`, split.twoSidedMidP, doubled(splitTerms, first)] as const,
        [`${place}, cluster`, cluster.asManyOrMore, atLeast(splitTerms, first, "exact")] as const,
        [`${place}, cluster mid-P`, cluster.asManyOrMoreMidP, atLeast(splitTerms, first, "mid-P")] as const,
      ];
    },
  );
});

twin("Ratio of generated standardised ratios", 100, () => {
  const { whole, share } = seededNumbers(64);
  return Array.from(
    { length: 25 },
    () => [whole(0, 15), 1 + 9 * share(), whole(1, 15), 1 + 9 * share()] as const,
  ).flatMap(([o1, e1, o2, e2]) => {
    const ours = compareStandardisedRatios(
      { observed: o1, expected: e1 },
      { observed: o2, expected: e2 },
      0.95,
      "mid-P",
    );
    const alone = standardisedRatio({ observed: o1, expected: e1 }, { level: 0.95, method: "mid-P", leastExpected: 1 });
    if (typeof ours === "string" || typeof alone === "string") throw new Error("no answer");
    const [low, high] = slowShareLimits(o1, o1 + o2, 0.95, "mid-P");
    const [countLow, countHigh] = slowCountLimits(o1, 0.95, "mid-P");
    const place = `${o1} of ${e1}, ${o2} of ${e2}`;
    return [
      [`${place}, lower`, ours.lower, ((low / (1 - low)) * e2) / e1] as const,
      [`${place}, upper`, ours.upper, ((high / (1 - high)) * e2) / e1] as const,
      [`${place}, first alone lower`, alone.lower ?? 0, countLow / e1] as const,
      [`${place}, first alone upper`, alone.upper, countHigh / e1] as const,
    ];
  });
});

// One stratum has one answer: the crude ratio, and its Wald limits with the plain variance 1/a + 1/b.
twin("Mantel-Haenszel of one generated stratum", 40, () => {
  const { whole } = seededNumbers(65);
  return Array.from(
    { length: 20 },
    () => [whole(1, 60), whole(50, 5000), whole(1, 60), whole(50, 5000)] as const,
  ).flatMap(([a, t, b, s]) => {
    const ours = mantelHaenszel([{ first: seen(a, t), second: seen(b, s) }], 0.95);
    if (typeof ours === "string") throw new Error(ours);
    const place = `${a}/${t} v ${b}/${s}`;
    return [
      [place, ours.ratio.ratio, a / t / (b / s)] as const,
      [
        `${place}, upper`,
        ours.ratio.upper,
        (a / t / (b / s)) * Math.exp(1.959963984540054 * Math.sqrt(1 / a + 1 / b)),
      ] as const,
    ];
  });
});

// Every way the unknown ends can fall, tried one by one, lies within the bounds and reaches both.
twin("Bounds from missing ends", 6, () => {
  const hidden = [3, 12.5, 40]; // days that each of three lost lines may add, and one event each
  const cases = Array.from({ length: 64 }, (_, bits) => {
    const stays = hidden.filter((_, line) => ((bits >> line) & 1) === 1);
    const events = 2 + [3, 4, 5].filter((bit) => ((bits >> bit) & 1) === 1).length;
    return (1000 * events) / (500 + stays.reduce((sum, days) => sum + days, 0));
  });
  const ours = rateWithMissingEnds(
    { knownEvents: 2, possibleEvents: 3, fewestDays: day(500), mostDays: day(555.5), clock: "exact" },
    0.95,
    "exact",
  );
  const shares = shareWithMissingEnds(4, 3, 50);
  return [
    ["lowest rate", ours.lowestPerThousand, Math.min(...cases)],
    ["highest rate", ours.highestPerThousand, Math.max(...cases)],
    ["outer lower", ours.outer.lower, (1000 * slowCountLimits(2, 0.95, "exact")[0]) / 555.5],
    ["outer upper", ours.outer.upper, (1000 * slowCountLimits(5, 0.95, "exact")[1]) / 500],
    ["lowest share", shares.lower, 0.08],
    ["highest share", shares.upper, 0.14],
  ] as const satisfies readonly (readonly [string, number, number])[] as unknown as (readonly [
    string,
    number,
    number,
  ])[];
});

twin("Large-sample ratios of generated rates", 24, () => {
  const { whole } = seededNumbers(79);
  return Array.from({ length: 8 }, () => [whole(3, 60), whole(500, 9000), whole(3, 60), whole(500, 9000)]).flatMap(
    ([x, t, y, s]) => {
      const [a, b] = [seen(x as number, t as number), seen(y as number, s as number)];
      const ours = largeSampleRatio(a, b, 0.95);
      if (typeof ours === "string") return []; // then the count of comparisons fails
      const z = 1.959963984540054;
      // each limit lies z standard errors of the logarithm from the ratio
      const error = Math.sqrt(1 / a.events + 1 / b.events);
      const all = (a.events + b.events) / (a.days + b.days);
      const gap = a.events / a.days - b.events / b.days;
      return [
        [`${x} v ${y}, lower`, Math.log(ours.ratio / ours.lower) / error, z],
        [`${x} v ${y}, upper`, Math.log(ours.upper / ours.ratio) / error, z],
        // the score test of no difference, from the pooled rate
        [`${x} v ${y}, chi`, ours.chi, gap / Math.sqrt(all * (1 / a.days + 1 / b.days))],
      ] as const;
    },
  );
});

twin("Guards of generated lines, and Byar's chance", 60, () => {
  const { whole } = seededNumbers(80);
  return Array.from({ length: 20 }, () => Array.from({ length: 6 }, () => whole(0, 40))).flatMap((days, trial) => {
    const limits = { daysOfOneLine: 0, eventsOfOnePerson: 1, otherEnds: 0, unknownEnds: 0 };
    const [others, unknown] = [whole(1, 20), whole(1, 20)];
    const raised = sparseGuards(
      { daysByLine: days, eventsByPerson: [], ends: 60, otherEnds: others, unknownEnds: unknown },
      limits,
    );
    const ordered = [...days].sort((a, b) => a - b);
    const sum = days.reduce((a, b) => a + b, 0);
    const shareOf = (guard: string) => raised.find((one) => one.guard === guard)?.share ?? 0;
    // Byar's limits are where his own chance is what was asked: the doubled tail at his lower limit
    const observed = 20 + whole(0, 200);
    const { lower } = countLimits(observed, 0.95, "Byar");
    return [
      [`trial ${trial}, largest line`, shareOf("daysOfOneLine"), (ordered.at(-1) as number) / sum],
      [`trial ${trial}, ends`, shareOf("otherEnds") + shareOf("unknownEnds"), (others + unknown) / 60],
      [`trial ${trial}, Byar at his lower limit of ${observed}`, byarChance({ observed, expected: lower }), 0.05],
    ] as const;
  });
});
