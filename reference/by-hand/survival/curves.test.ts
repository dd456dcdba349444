import {
  ascendingOrder,
  cumulativeIncidence,
  incidenceAt,
  kaplanMeier,
  logRank,
  numberAtRisk,
  PETO_PETO,
  restrictedMean,
  riskTable,
  survivalAt,
} from "../../../src/core/survival/index.ts";
import { checkAgainst } from "../../check.ts";
import { generatedLines, uniformFrom } from "../../generated-lines.ts";
import {
  slowIncidence,
  slowIncidenceVariance,
  slowLogRank,
  slowMean,
  slowSurvival,
  type SlowLine,
} from "./slow-curves.ts";

const DESIGNS = [1, 2, 3, 4, 5, 6].flatMap((seed) =>
  [
    { grain: 0, late: false },
    { grain: 2, late: false },
    { grain: 0, late: true },
    { grain: 3, late: true },
  ].map((options) => ({ seed, options, lines: generatedLines(seed, 50, options) })),
);
const slowLines = (lines: ReturnType<typeof generatedLines>, groups = 3): SlowLine[] =>
  lines.exit.map((exit, i) => ({
    entry: lines.entry[i] === 0 ? -1 : (lines.entry[i] as number),
    exit,
    end: lines.end[i] as number,
    group: (lines.group[i] as number) % groups,
  }));

checkAgainst(
  {
    quantity: "Curves on generated lines",
    unit: "absolute",
    source: "their definitions, a filter over all lines at each time",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 24 * 3 * 9,
  },
  (compare) => {
    for (const { seed, options, lines } of DESIGNS) {
      const slow = slowLines(lines);
      const { entry, exit, end } = lines;
      const table = riskTable(options.late ? { entry: entry.map((e) => e || -1), exit, end } : { exit, end });
      const curve = kaplanMeier(table);
      const incidence = cumulativeIncidence(table);
      const place = `seed ${seed}, ${JSON.stringify(options)}`;
      for (const moment of [3, 12, 30]) {
        const theirs = slowSurvival(slow, moment);
        const ours = survivalAt(curve, moment, 0.95);
        compare(`survival at ${moment}, ${place}`, ours.survival, theirs.s);
        compare(
          `error at ${moment}, ${place}`,
          ours.standardError ?? 0,
          theirs.s > 0 ? theirs.s * Math.sqrt(theirs.greenwood) : 0,
        );
        const asked = numberAtRisk(options.late ? { entry, exit, end } : { exit, end }, moment);
        compare(
          `at risk at ${moment}, ${place}`,
          asked,
          slow.filter((l) => l.entry < moment && moment <= l.exit).length,
        );
        const mean = slowMean(slow, moment);
        compare(`mean to ${moment}, ${place}`, restrictedMean(curve, moment).mean, mean.mean);
        compare(
          `mean's variance to ${moment}, ${place}`,
          restrictedMean(curve, moment).standardError ** 2 / (1 + mean.variance),
          mean.variance / (1 + mean.variance),
        );
        for (const kind of [1, 2]) {
          const at = incidenceAt(incidence, kind, moment, 0.95);
          compare(`incidence ${kind} at ${moment}, ${place}`, at.incidence, slowIncidence(slow, kind, moment));
          compare(
            `variance ${kind} at ${moment}, ${place}`,
            at.standardError ** 2,
            slowIncidenceVariance(slow, kind, moment),
          );
        }
      }
    }
  },
);

checkAgainst(
  {
    quantity: "The curves of all ends add to one at every time",
    unit: "share",
    source: "arithmetic: an end is of one kind",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 24,
  },
  (compare) => {
    for (const { seed, options, lines } of DESIGNS) {
      const curve = cumulativeIncidence(riskTable({ exit: lines.exit, end: lines.end }));
      let worst = 1;
      for (let k = 0; k < curve.time.length; k += 1) {
        let sum = curve.survival[k] as number;
        for (let kind = 0; kind < 3; kind += 1) sum += curve.incidence[k * 3 + kind] as number;
        if (!(Math.abs(sum - 1) <= Math.abs(worst - 1)) || k === 0) worst = sum;
      }
      compare(`seed ${seed}, ${JSON.stringify(options)}`, worst, 1);
    }
  },
);

checkAgainst(
  {
    quantity: "Log-rank family on generated lines",
    unit: "relative",
    source: "the two-by-two tables, by a filter at each time",
    kind: "by-hand",
    tolerance: 1e-9,
    relative: true,
    comparisons: 24 * 4,
  },
  (compare) => {
    for (const { seed, options, lines } of DESIGNS) {
      const slow = slowLines(lines, 2);
      const { entry, exit, end } = lines;
      const follow = { exit, end, group: slow.map((line) => line.group) };
      const table = riskTable(options.late ? { entry: entry.map((e) => e || -1), ...follow } : follow);
      const place = `seed ${seed}, ${JSON.stringify(options)}`;
      compare(
        `log-rank, ${place}`,
        logRank([table]).statistic,
        slowLogRank(slow, () => 1),
      );
      compare(
        `Gehan, ${place}`,
        logRank([table], { kind: "Gehan" }).statistic,
        slowLogRank(slow, (n) => n),
      );
      compare(
        `Tarone-Ware, ${place}`,
        logRank([table], { kind: "Tarone-Ware" }).statistic,
        slowLogRank(slow, Math.sqrt),
      );
      compare(
        `Peto-Peto, ${place}`,
        logRank([table], PETO_PETO).statistic,
        slowLogRank(slow, (_, before) => before),
      );
    }
  },
);

checkAgainst(
  {
    quantity: "Ascending order by digits",
    unit: "places",
    source: "the comparison sort of the language, on values of all sizes and signs",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 6000,
  },
  (compare) => {
    for (const [seed, size] of [
      [1, 1000],
      [2, 2000],
      [3, 3000],
    ] as const) {
      const uniform = uniformFrom(seed);
      const values = Array.from({ length: size }, () =>
        seed === 3 ? Math.floor(uniform() * 50) : (uniform() - 0.3) * 10 ** Math.floor(uniform() * 40 - 20),
      );
      const theirs = values.map((_, i) => i).sort((a, b) => (values[a] as number) - (values[b] as number) || a - b);
      const ours = ascendingOrder(values);
      for (const [k, place] of theirs.entries()) compare(`seed ${seed}, rank ${k}`, ours[k] as number, place);
    }
  },
);
