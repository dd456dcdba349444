// One timed task of the statistics benchmark, in a process of its own: as the product is bundled, from cold.
// usage: node task.js FOLDER TASK ROWS. Prints seconds, peak resident kilobytes, then the answers to compare.
import { closeSync, openSync, readSync } from "node:fs";
import { join } from "node:path";
import { coxRegression, fineGray, poissonRegression } from "../../src/core/regression/index.ts";
import {
  cumulativeIncidence,
  grayTest,
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

function column(name: ColumnName): Float64Array {
  const values = new Float64Array(rows);
  const file = openSync(join(folder, `${name}.f64`), "r");
  readSync(file, values);
  closeSync(file);
  return values;
}

const name = task.replace(/-(day|minute)$/, "");
const exit = column(task.endsWith("-day") ? "t_day" : "t_min");
const state = new Uint8Array(column("state"));
const event = /^(kaplan|log|cox|poisson)/.test(name) ? state.map((kind) => (kind === 1 ? 1 : 0)) : state;
const group = /^(log-rank|gray)/.test(name)
  ? new Uint8Array(column("stratum")).map((code) => code - 1)
  : new Uint8Array(0);
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
  gray: () => {
    const table = riskTable({ exit, end: state, group });
    return [1, 2, 3].map((kind) => grayTest([table], kind).statistic);
  },
  cox: () => coefficients(coxRegression({ exit, event, covariates })),
  poisson: () => coefficients(poissonRegression({ count: event, exposure: exit, covariates })),
  "fine-gray": () => coefficients(fineGray({ exit, end: state, covariates }, 1)),
};

const run = TASKS[name];
if (run === undefined) throw new Error(`There is no task ${name}; there are ${Object.keys(TASKS).join(", ")}.`);
const since = performance.now();
const answer = run();
const seconds = (performance.now() - since) / 1000;
console.log([seconds.toFixed(4), process.resourceUsage().maxRSS, ...answer].join(" "));
