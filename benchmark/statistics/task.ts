// One timed task of the statistics benchmark, in a process of its own: as the product is bundled, from cold.
// usage: node task.js FOLDER TASK ROWS. Prints seconds, processor seconds, peak resident kilobytes, then the answers to compare.
import { closeSync, existsSync, openSync, readFileSync, readSync } from "node:fs";
import { join } from "node:path";
import { coxRegression, fineGray, poissonRegression } from "../../src/core/regression/index.ts";
import {
  cumulativeIncidence,
  incidenceAt,
  kaplanMeier,
  logRank,
  riskTable,
  survivalAt,
} from "../../src/core/survival/index.ts";
import { type ColumnName } from "./simulated-lines.ts";

const [folder = "", task = "", asked = "0"] = process.argv.slice(2);
const rows = Number(asked);
const EIGHT: readonly ColumnName[] = ["arm_left", "french", "lumens", "ratio", "weight", "age", "cancer", "icu"];
const MOMENT = 30;

/** Reads a column in pieces, so that codes of one byte never stand in memory as doubles. */
function readInto<T extends Float64Array | Uint8Array>(name: ColumnName, values: T): T {
  const piece = new Float64Array(8192);
  const file = openSync(join(folder, `${name}.f64`), "r");
  for (let k = 0; k < rows; k += piece.length) {
    readSync(file, piece);
    values.set(piece.subarray(0, Math.min(piece.length, rows - k)), k);
  }
  closeSync(file);
  return values;
}
const column = (name: ColumnName) => readInto(name, new Float64Array(rows));
const codes = (name: ColumnName) => readInto(name, new Uint8Array(rows));

const name = task.replace(/-(day|minute)$/, "");
const exit = column(task.endsWith("-day") ? "t_day" : "t_min");
const state = codes("state");
const event = /^(kaplan|log|cox|poisson)/.test(name) ? state.map((kind) => (kind === 1 ? 1 : 0)) : state;
const group = name.startsWith("log-rank") ? codes("stratum").map((code) => code - 1) : new Uint8Array(0);
const covariates = /^(cox|poisson|fine-gray)/.test(name)
  ? EIGHT.map((each) => ({ name: each, values: column(each) }))
  : [];

interface Fitted {
  readonly kind: string;
  readonly coefficients?: readonly { readonly value: number; readonly standardError: number }[];
}
const coefficients = (fit: Fitted): number[] => {
  if (fit.coefficients === undefined) throw new Error(`There is no fit: ${fit.kind}.`);
  return [...fit.coefficients.map(({ value }) => value), ...fit.coefficients.map((each) => each.standardError)];
};

/** Of this program alone: the system's own count of a process takes in the one that started it. */
function peakKb(): number {
  if (!existsSync("/proc/self/status")) return process.resourceUsage().maxRSS;
  return Number(/VmHWM:\s*(\d+)/.exec(readFileSync("/proc/self/status", "utf8"))?.[1]);
}

const TASKS: Readonly<Record<string, () => number[]>> = {
  "kaplan-meier": () => {
    const { survival, standardError } = survivalAt(kaplanMeier(riskTable({ exit, end: event })), MOMENT, 0.95);
    return [survival, standardError ?? Number.NaN];
  },
  "log-rank": () => [logRank([riskTable({ exit, end: event, group })]).statistic],
  incidence: () => {
    const curve = cumulativeIncidence(riskTable({ exit, end: state }));
    const at = [1, 2, 3].map((kind) => incidenceAt(curve, kind, MOMENT, 0.95));
    return [...at.map(({ incidence }) => incidence), ...at.map(({ standardError }) => standardError)];
  },
  cox: () => coefficients(coxRegression({ exit, event, covariates })),
  poisson: () => coefficients(poissonRegression({ count: event, exposure: exit, covariates })),
  "fine-gray": () => coefficients(fineGray({ exit, end: state, covariates }, 1)),
};

const run = TASKS[name];
if (run === undefined) throw new Error(`There is no task ${name}; there are ${Object.keys(TASKS).join(", ")}.`);
const used = process.cpuUsage();
const since = performance.now();
const answer = run();
const seconds = (performance.now() - since) / 1000;
const { user, system } = process.cpuUsage(used);
console.log([seconds.toFixed(4), (user + system) / 1e6, peakKb(), ...answer].join(" "));
