import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  CARREAU_YASUDA_BLOOD,
  dividedBore,
  residualFlow,
  shearThinningFlow,
  slowShare,
  solveSection,
  veinField,
  velocityGrid,
  type VeinSection,
} from "../src/core/flow/index.ts";
import { millilitrePerMinute, millimetre } from "../src/core/quantity/index.ts";
import { median, type BenchmarkRow } from "./plan.ts";

/** The same thousand places in all three languages. */
const places = Array.from(
  { length: 1000 },
  (_, index) => [0.02 + 0.95 * ((index * 0.6180339887) % 1), (index * 0.4142135624) % 1] as const,
);

const sumOfFlows = () => places.reduce((sum, [ratio, offset]) => sum + residualFlow(ratio, offset), 0);

/** Places where a form changes or the plain series would be long. */
const slowPlaces = [0.02, 0.1, 0.33, 0.45, 0.7, 0.97].flatMap((ratio) =>
  [0, 1e-5, 0.1, 0.5, 0.9, 0.99, ...[3, 6, 9, 12].map((power) => 1 - 10 ** -power), 1].map(
    (offset) => [ratio, offset] as const,
  ),
);

function slowestMicroseconds(): number {
  let sink = 0;
  const taken = slowPlaces.map(([ratio, offset]) =>
    median(9, () => {
      for (let turn = 0; turn < 200; turn += 1) sink += residualFlow(ratio, offset);
    }),
  );
  if (!Number.isFinite(sink)) throw new Error("a flow is not a number");
  return Math.max(...taken) * 5; // 200 turns, milliseconds to microseconds
}

/** What another program prints as JSON; undefined where it cannot run here. */
function measured(command: string, args: readonly string[]): Readonly<Record<string, number>> | undefined {
  const { status, stdout } = spawnSync(command, args, { encoding: "utf8" });
  if (status !== 0) return undefined;
  const result = JSON.parse(stdout) as Record<string, number>;
  // a faster sum of something else would be no comparison
  const off = Math.abs((result["sum"] as number) - sumOfFlows());
  if (!(off < 1e-8)) throw new Error(`${command} adds up to something else, by ${off}`);
  return result;
}

function inC(): Readonly<Record<string, number>> | undefined {
  const folder = mkdtempSync(join(tmpdir(), "veinwright-benchmark-"));
  const program = join(folder, "residual-flow");
  const built = spawnSync("gcc", ["-O2", "-o", program, "benchmark/residual-flow.c", "-lm"]);
  const result = built.status === 0 ? measured(program, []) : undefined;
  rmSync(folder, { recursive: true, force: true });
  return result;
}

const round = (catheters: VeinSection["catheters"]): VeinSection => ({ axisRatio: 1, catheters });
const besideEachOther = Math.sqrt(0.75 ** 2 - 0.25 ** 2);
/** A thin catheter on the wall, and two that touch each other and the wall: hard ones of their kind. */
const touching = round([{ x: 0.9, y: 0, radius: 0.1 }]);
const pair = round([-0.25, 0.25].map((x) => ({ x, y: besideEachOther, radius: 0.25 })));

function solverRow(name: string, section: VeinSection): BenchmarkRow {
  const answer = solveSection(section, 1e-6);
  if (answer.kind === "refused" || !answer.reached) throw new Error(`${name}: 1e-6 is not reached`);
  return { name, median: median(9, () => void solveSection(section, 1e-6)), unit: "ms" };
}

/** NaN stands for "not measured here". */
export function benchmarkFlow(): readonly BenchmarkRow[] {
  const ours = median(31, () => void sumOfFlows()); // milliseconds for a thousand are microseconds for one
  const c = inC()?.["microseconds"] ?? Number.NaN;
  const python = measured("python3", ["benchmark/residual-flow.py"]);
  const [one, all] = [python?.["one"] ?? Number.NaN, python?.["all"] ?? Number.NaN];
  const grid = [0, 0.5, 1].map((offset) => median(15, () => void velocityGrid(veinField(0.45, offset), 200)));
  return [
    { name: "residual flow, one value, mean of 1000 places", median: ours, unit: "us" },
    { name: "residual flow, one value, slowest of 66 places", median: slowestMicroseconds(), unit: "us" },
    { name: "the same loop in C, gcc -O2", median: c, unit: "us" },
    { name: "ratio of ours to C", median: ours / c, unit: "times" },
    { name: "the same series in NumPy and SciPy, one place a call", median: one, unit: "us" },
    { name: "ratio of ours to that", median: ours / one, unit: "times" },
    { name: "the same in NumPy, all places with the longest sum at once", median: all, unit: "us" },
    { name: "ratio of ours to that, all at once", median: ours / all, unit: "times" },
    { name: "velocity on 200 x 200 points, worst of three offsets", median: Math.max(...grid), unit: "ms" },
    { name: "share of slow blood", median: median(15, () => void slowShare(veinField(0.45, 0.5), 0.1)), unit: "ms" },
    {
      name: "shear-thinning flow",
      median: median(9, () => {
        const vein = { ratio: 0.45, diameterMm: millimetre(4), openFlow: millilitrePerMinute(60) };
        shearThinningFlow(vein, CARREAU_YASUDA_BLOOD);
      }),
      unit: "ms",
    },
    {
      name: "conductance of a divided bore",
      median: median(15, () => {
        const walls = { outsideDiameterMm: millimetre(5 / 3), wallMm: millimetre(0.25), septumMm: millimetre(0.2) };
        dividedBore({ ...walls, lumens: 2 });
      }),
      unit: "ms",
    },
    solverRow("general solver to 1e-6, one catheter on the wall", touching),
    solverRow("general solver to 1e-6, oval vein, one catheter off the axes", {
      axisRatio: 0.7,
      catheters: [{ x: 0.2, y: 0.15, radius: 0.3 }],
    }),
    solverRow("general solver to 1e-6, two catheters and wall touching", pair),
  ];
}
