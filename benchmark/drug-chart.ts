import loadHighs from "highs";
import { fewestLumens, type DrugChart, type FewestLumens } from "../src/core/drug-chart/index.ts";
import { minute } from "../src/core/quantity/index.ts";
import { CHART_KINDS, generatedChart, hardCharts } from "../reference/drug-chart-generator.ts";
import { highsLumens, highsMoves } from "../reference/independent/drug-chart-ilp.ts";
import type { BenchmarkRow } from "./plan.ts";

/** A chart that takes longer is stopped, listed by name, and counts as not proven. */
const STOP_AFTER_MS = 5000;
const HIGHS_STOP_AFTER_S = 20;
const SEEDS = 6;
/** Seeds from here on: the search was shaped on the charts before. */
const FIRST_SEED = 1001;

interface Timed {
  readonly name: string;
  readonly chart: DrugChart;
  readonly answer: FewestLumens;
  readonly ms: number;
  readonly proven: boolean;
}

function timed(name: string, chart: DrugChart): Timed {
  const since = performance.now();
  const answer = fewestLumens(chart, {
    mayGoOn: () => performance.now() - since < STOP_AFTER_MS,
    shortRunMin: minute(60),
  });
  const ms = performance.now() - since;
  if (answer.kind === "refused") throw new Error(`${name} is refused`);
  const { asCharted, retimed } = answer;
  const proven = [asCharted.status, retimed.status, retimed.movesStatus].every((status) => status === "proven");
  return { name, chart, answer, ms, proven };
}

const charts = (infusions: number, seeds: number): readonly Timed[] =>
  CHART_KINDS.flatMap((kind) =>
    Array.from({ length: seeds }, (_, index) =>
      timed(
        `${kind}, ${infusions} infusions, seed ${FIRST_SEED + index}`,
        generatedChart(kind, infusions, FIRST_SEED + index),
      ),
    ),
  );

const middle = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] as number;
const share = (all: readonly Timed[]): number => (100 * all.filter(({ proven }) => proven).length) / all.length;
const ms = (name: string, value: number): BenchmarkRow => ({ name, median: value, unit: "ms" });

/** Whole answers: as charted, re-timed with fewest moves, proof and offers. Charts by seed, so that every run has the same ones. */
export async function benchmarkDrugChart(): Promise<readonly BenchmarkRow[]> {
  charts(8, 1);
  const upToSixteen = [
    ...[2, 4, 6, 8, 10, 12, 14, 16].flatMap((infusions) => charts(infusions, SEEDS)),
    ...Object.entries(hardCharts).map(([name, chart]) => timed(name, chart)),
  ];
  const times = upToSixteen.map((one) => one.ms);
  const rows: BenchmarkRow[] = [
    ms(`fewest lumens, ${upToSixteen.length} charts to 16 infusions, +-2 h, median`, middle(times)),
    ms("the same, worst", Math.max(...times)),
    { name: "the same, share proven", median: share(upToSixteen), unit: "%" },
    ...upToSixteen.filter(({ proven }) => !proven).map((one) => ms(`stopped: ${one.name}`, one.ms)),
  ];
  for (const infusions of [8, 16, 24, 32]) {
    const all = charts(infusions, 2);
    rows.push(
      ms(`fewest lumens, ${infusions} infusions, median`, middle(all.map((one) => one.ms))),
      {
        name: `the same, share whose lumens are proven within ${STOP_AFTER_MS / 1000} s`,
        median: (100 * all.filter(({ answer }) => answer.retimed.status === "proven").length) / all.length,
        unit: "%",
      },
      { name: `the same, share proven with its moves within ${STOP_AFTER_MS / 1000} s`, median: share(all), unit: "%" },
      ...all.filter(({ proven }) => !proven).map((one) => ms(`stopped: ${one.name}`, one.ms)),
    );
  }
  return [...rows, ...(await againstHighs())];
}

/** The same charts through HiGHS: lumens as charted, lumens re-timed, then the moves on so many. */
async function againstHighs(): Promise<readonly BenchmarkRow[]> {
  const highs = await loadHighs();
  const rows: BenchmarkRow[] = [];
  const ratios: number[] = [];
  for (const infusions of [6, 10]) {
    for (const { name, chart, answer, ms: ours } of charts(infusions, 1)) {
      const { asCharted, retimed } = answer;
      const since = performance.now();
      const theirs = [
        highsLumens(highs, chart, false, asCharted.lumens, HIGHS_STOP_AFTER_S),
        highsLumens(highs, chart, true, asCharted.lumens, HIGHS_STOP_AFTER_S),
        highsMoves(highs, chart, retimed.lumens, HIGHS_STOP_AFTER_S).moves,
      ];
      const taken = performance.now() - since;
      ratios.push(taken / ours);
      if (theirs.some(Number.isNaN)) rows.push(ms(`HiGHS stopped: ${name}`, taken));
      else if (theirs.join() !== [asCharted.lumens, retimed.lumens, retimed.dosesMoved].join())
        throw new Error(`${name}: HiGHS says ${theirs.join()}`);
    }
  }
  return [
    { name: "HiGHS over ours, same charts of 6 and 10 infusions", median: middle(ratios), unit: "times as long" },
    { name: "the same, least of the charts", median: Math.min(...ratios), unit: "times as long" },
    ...rows,
  ];
}
