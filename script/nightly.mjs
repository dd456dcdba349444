// @ts-check
// The slow campaigns: the whole gate, then every property with many more cases, then the benchmarks.
import { run } from "./set-up.mjs";

process.env["VEINWRIGHT_CASES"] = "20";
const ok = [
  run("npm", ["run", "check"]),
  run(process.execPath, ["--import", "tsx", "script/reliability.ts", "500"]),
  run("npm", ["run", "benchmark"]),
].every(Boolean);
process.exitCode = ok ? 0 : 1;
