// @ts-check
// Bundles the benchmarks as the product is bundled, then runs them: the development loader would be measured instead.
// `statistics` runs the race of the statistics against R instead, which takes some minutes.
import { build } from "esbuild";

const statistics = process.argv[2] === "statistics";
const entryPoints = statistics ? ["benchmark/statistics/run.ts", "benchmark/statistics/task.ts"] : ["benchmark/run.ts"];
const outdir = statistics ? "dist/benchmark/statistics" : "dist/benchmark";
await build({
  entryPoints,
  outdir,
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  packages: "external",
  logLevel: "warning",
});
if (statistics) process.argv.splice(2, 1);
await import(new URL(`../${outdir}/run.js`, import.meta.url).href);
