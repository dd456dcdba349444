// The statistics on a million simulated lines, here and in R, side by side. Each task is a process of its own on one
// core; both sides read the same files and take turns, so that what else the machine does disturbs both alike.
// usage: npm run benchmark statistics [ROUNDS]
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { createHash } from "node:crypto";
import { COLUMNS, linesAsText, simulatedLines } from "./simulated-lines.ts";

const MILLION = 1_000_000;
/** MD5 of the million lines as R 4.2.2 writes them from the same seed. */
const CHECKSUM = "3b6490fbe96742838bb5d7018edc73c4";
const rounds = Number(process.argv[2] ?? 3);

interface Contest {
  readonly name: string;
  readonly task: string;
  readonly rows: number;
  /** Ways of R to the same answer; the quickest counts. `once` marks one too slow to repeat. */
  readonly rivals: readonly { readonly task: string; readonly call: string; readonly once?: boolean }[];
  /** Largest relative difference of the answers, by the kind of computation. */
  readonly tolerance: number;
}

const CLOSED = 1e-9;
const FIT = 1e-6;
const million = (name: string, task: string, tolerance: number, ...rivals: Contest["rivals"]): Contest => ({
  name,
  task,
  rows: MILLION,
  tolerance,
  rivals,
});
const CONTESTS: readonly Contest[] = [
  million("Kaplan-Meier, minutes", "kaplan-meier-minute", CLOSED, { task: "kaplan-meier-minute", call: "survfit" }),
  million("log-rank, 3 groups, minutes", "log-rank-minute", CLOSED, { task: "log-rank-minute", call: "survdiff" }),
  million(
    "Aalen-Johansen with errors, minutes",
    "incidence-minute",
    CLOSED,
    // its errors are of another formula (Aalen 1978): only the incidences are compared
    { task: "incidence-cmprsk-minute", call: "cmprsk::cuminc" },
  ),
  million(
    "Aalen-Johansen with errors, days",
    "incidence-day",
    CLOSED,
    { task: "incidence-cmprsk-day", call: "cmprsk::cuminc" },
    { task: "incidence-day", call: "survfit", once: true },
  ),
  million("Cox, 8 covariates, Efron, minutes", "cox-minute", FIT, { task: "cox-minute", call: "coxph" }),
  million(
    "Poisson regression, 8 covariates",
    "poisson-minute",
    FIT,
    { task: "poisson-minute", call: "glm" },
    { task: "poisson-bare-minute", call: "glm.fit" },
  ),
  million("Fine-Gray, 8 covariates, minutes", "fine-gray-minute", FIT),
  {
    name: "Fine-Gray, 5,000 lines, minutes",
    task: "fine-gray-minute",
    rows: 5000,
    tolerance: FIT,
    rivals: [{ task: "fine-gray-minute", call: "cmprsk::crr" }],
  },
];

interface Run {
  readonly wallS: number;
  readonly cpuS: number;
  readonly peakMb: number;
  readonly answer: readonly number[];
}

const pinned = spawnSync("taskset", ["-c", "0", "true"]).status === 0;
const hasR = spawnSync("Rscript", ["--vanilla", "-e", "library(survival); library(cmprsk)"]).status === 0;
const folder = mkdtempSync(join(tmpdir(), "veinwright-statistics-"));

function timed(command: readonly string[], task: string, rows: number): Run {
  const words = [...(pinned ? ["taskset", "-c", "0"] : []), ...command, folder, task, String(rows)];
  const run = spawnSync(words[0] as string, words.slice(1), { encoding: "utf8" });
  if (run.status !== 0) throw new Error(`${words.join(" ")} did not finish: ${run.stderr}`);
  const [wallS = 0, cpuS = 0, peakKb = 0, ...answer] = run.stdout.trim().split(/\s+/).map(Number);
  return { wallS, cpuS, peakMb: peakKb / 1024, answer };
}
const ours = (task: string, rows: number) =>
  timed([process.execPath, join(import.meta.dirname ?? dirname(process.argv[1] ?? "."), "task.js")], task, rows);
const theirs = (task: string, rows: number) =>
  timed(["Rscript", "--vanilla", "benchmark/statistics/task.R"], task, rows);

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
const middle = (runs: readonly Run[]): Run => ({
  wallS: median(runs.map((run) => run.wallS)),
  cpuS: median(runs.map((run) => run.cpuS)),
  peakMb: median(runs.map((run) => run.peakMb)),
  answer: runs[0]?.answer ?? [],
});

/** Largest relative difference over the answers that both give. */
function apart(a: readonly number[], b: readonly number[]): number {
  return a.slice(0, b.length).reduce((most, x, k) => Math.max(most, Math.abs(x / (b[k] as number) - 1)), 0);
}

/** Median over the rounds of R's seconds over ours: the two ran one after the other, and so under about the same load. */
const byTheClock = (own: readonly Run[], other: readonly Run[] = []): string =>
  median(other.map(({ wallS }, round) => wallS / (own[round]?.wallS ?? Number.NaN))).toFixed(1);

let different = 0;
function contest({ name, task, rows, rivals, tolerance }: Contest): string {
  const own: Run[] = [];
  const other = rivals.map((): Run[] => []);
  for (let round = 0; round < rounds; round += 1) {
    own.push(ours(task, rows));
    if (!hasR) continue;
    for (const [k, rival] of rivals.entries()) {
      if (round === 0 || rival.once !== true) other[k]?.push(theirs(rival.task, rows));
    }
  }
  const here = middle(own);
  const cells = [name, here.wallS.toFixed(2), here.cpuS.toFixed(2), here.peakMb.toFixed(0)];
  const met = rivals.map(({ call }, k) => ({ call, ...middle(other[k] ?? []) })).filter((run) => run.answer.length > 0);
  const best = met.toSorted((a, b) => a.cpuS - b.cpuS)[0];
  if (best === undefined) return `| ${[...cells, "-", "-", "-", "-", "-", "-", "-", "-"].join(" | ")} |`;
  const leastMb = Math.min(...met.map((run) => run.peakMb));
  const difference = Math.max(...met.map((run) => apart(here.answer, run.answer)));
  if (!(difference <= tolerance)) different += 1;
  cells.push(best.call, best.wallS.toFixed(2), best.cpuS.toFixed(2), leastMb.toFixed(0));
  cells.push(
    (best.cpuS / here.cpuS).toFixed(1),
    byTheClock(own, other[rivals.findIndex(({ call }) => call === best.call)]),
  );
  cells.push((here.peakMb / leastMb).toFixed(2));
  cells.push(`${difference.toExponential(0)}${difference <= tolerance ? "" : " TOO FAR"}`);
  return `| ${cells.join(" | ")} |`;
}

try {
  const lines = simulatedLines(MILLION);
  const sum = createHash("md5");
  for (const line of linesAsText(lines)) sum.update(line);
  if (sum.digest("hex") !== CHECKSUM) throw new Error("The simulated lines are not those R's own generator makes.");
  for (const name of COLUMNS) writeFileSync(join(folder, `${name}.f64`), lines[name]);
  if (!hasR) console.log("R with survival and cmprsk is not installed here: only this side is measured.\n");
  console.log(`Medians of ${rounds} runs in turn, Node ${process.version}${pinned ? ", one core" : ""}.\n`);
  console.log(
    "| task | s | CPU s | peak MB | best of R | s | CPU s | peak MB | times faster | by the clock | memory | apart |",
  );
  console.log("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
  for (const each of CONTESTS) console.log(contest(each));
  if (different > 0) {
    console.log(`\n${different} answers differ from R by more than they may.`);
    process.exitCode = 1;
  }
} finally {
  rmSync(folder, { recursive: true });
}
