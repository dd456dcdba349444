import loadHighs from "highs";
import { fewestLumens, type DrugChart, type FewestLumens } from "../../src/core/drug-chart/index.ts";
import { minute } from "../../src/core/quantity/index.ts";
import { checkAgainst } from "../check.ts";
import { CHART_KINDS, generatedChart, hardCharts, smallChart } from "../drug-chart-generator.ts";
import { highsLumens, highsMoves } from "./drug-chart-ilp.ts";

const highs = await loadHighs();

const answerTo = (chart: DrugChart): FewestLumens => {
  const answer = fewestLumens(chart, { mayGoOn: () => true, shortRunMin: minute(60) });
  if (answer.kind === "refused") throw new Error(answer.faults.map(({ code }) => code).join());
  return answer;
};

const seeds = (count: number) => Array.from({ length: count }, (_, index) => index + 1);

checkAgainst(
  {
    quantity: "Fewest lumens of generated charts, 5 to 8 infusions",
    unit: "lumens",
    source: "HiGHS 1.15.3, a whole-number programme by minute (reference/independent/drug-chart-ilp.ts)",
    kind: "independent",
    tolerance: 0,
    comparisons: CHART_KINDS.length * 4 * 2,
  },
  (compare) => {
    for (const kind of CHART_KINDS)
      for (const seed of seeds(4)) {
        const chart = generatedChart(kind, 5 + (seed % 4), seed);
        const answer = answerTo(chart);
        const place = `${kind}, seed ${seed}`;
        compare(
          `${place}, as charted`,
          answer.asCharted.lumens,
          highsLumens(highs, chart, false, answer.asCharted.lumens),
        );
        compare(`${place}, re-timed`, answer.retimed.lumens, highsLumens(highs, chart, true, answer.asCharted.lumens));
      }
  },
);

checkAgainst(
  {
    quantity: "Doses and minutes moved, generated charts",
    unit: "doses, minutes",
    source: "HiGHS 1.15.3, a whole-number programme by minute (reference/independent/drug-chart-ilp.ts)",
    kind: "independent",
    tolerance: 0,
    comparisons: CHART_KINDS.length * 3 * 2,
  },
  (compare) => {
    for (const kind of CHART_KINDS)
      for (const seed of seeds(3)) {
        const chart = generatedChart(kind, 6, seed + 50, 60);
        const { retimed } = answerTo(chart);
        const theirs = highsMoves(highs, chart, retimed.lumens);
        compare(`${kind}, seed ${seed}, doses`, retimed.dosesMoved, theirs.moves);
        compare(`${kind}, seed ${seed}, minutes`, retimed.totalMovedMin, theirs.movedMin);
      }
  },
);

checkAgainst(
  {
    quantity: "Fewest lumens of charts over a day and a week, days active and labelled flow among them",
    unit: "lumens",
    source: "HiGHS 1.15.3, a whole-number programme by minute (reference/independent/drug-chart-ilp.ts)",
    kind: "independent",
    tolerance: 0,
    comparisons: 30,
  },
  (compare) => {
    for (const seed of seeds(30)) {
      const chart = smallChart(seed + 500);
      const answer = answerTo(chart);
      compare(`seed ${seed + 500}`, answer.retimed.lumens, highsLumens(highs, chart, true, answer.asCharted.lumens));
    }
  },
);

checkAgainst(
  {
    quantity: "Hand-made hard charts: lumens, doses and minutes moved",
    unit: "lumens, doses, minutes",
    source: "HiGHS 1.15.3, a whole-number programme by minute (reference/independent/drug-chart-ilp.ts)",
    kind: "independent",
    tolerance: 0,
    comparisons: Object.keys(hardCharts).length * 4,
  },
  (compare) => {
    for (const [name, chart] of Object.entries(hardCharts)) {
      const { asCharted, retimed } = answerTo(chart);
      const theirs = highsMoves(highs, chart, retimed.lumens);
      compare(`${name}, as charted`, asCharted.lumens, highsLumens(highs, chart, false, asCharted.lumens));
      compare(`${name}, re-timed`, retimed.lumens, highsLumens(highs, chart, true, asCharted.lumens));
      compare(`${name}, doses`, retimed.dosesMoved, theirs.moves);
      compare(`${name}, minutes`, retimed.totalMovedMin, theirs.movedMin);
    }
  },
);
