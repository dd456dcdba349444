// @ts-check
// The whole gate. Every step counts as one; every test counts as one; a skipped test counts as failed. Closes with the
// plain line `N passed, N failed`.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";

const bin = (/** @type {string} */ name) => `node_modules/.bin/${name}`;
const steps = [
  ["types", process.execPath, ["script/types.mjs"]],
  ["lint", bin("oxlint"), ["--type-aware"]],
  ["format", bin("oxfmt"), ["--check", "."]],
  ["dead code", bin("knip"), ["--no-progress"]],
  ["build", process.execPath, ["script/build.mjs"]],
];
const kinds = [
  "unit",
  "architecture",
  "property",
  "reference",
  "specification",
  "store-contract",
  "server",
  "acceptance",
  "documentation",
  "browser",
  "accessibility",
];

let passed = 0;
let failed = 0;
/** @param {string} name @param {number} since @param {boolean} ok */
const tell = (name, since, ok) =>
  console.log(`${ok ? "ok  " : "FAIL"} ${name} (${((Date.now() - since) / 1000).toFixed(1)} s)`);

for (const [name, command, args] of /** @type {[string, string, string[]][]} */ (steps)) {
  const since = Date.now();
  const { status } = spawnSync(command, args, { stdio: "inherit" });
  if (status === 0) passed += 1;
  else failed += 1;
  tell(name, since, status === 0);
}

rmSync(".cache/validation", { recursive: true, force: true });
mkdirSync(".cache", { recursive: true });
for (const kind of kinds) {
  const since = Date.now();
  const output = `.cache/test-${kind}.json`;
  rmSync(output, { force: true });
  const { status } = spawnSync(
    bin("vitest"),
    ["run", "--project", kind, "--reporter=default", "--reporter=json", `--outputFile.json=${output}`],
    { stdio: "inherit" },
  );
  try {
    const result = JSON.parse(readFileSync(output, "utf8"));
    const bad = result.numTotalTests - result.numPassedTests;
    if (result.numTotalTests === 0) console.error(`No ${kind} test ran.`);
    passed += result.numPassedTests;
    failed += bad + (result.numTotalTests === 0 || (bad === 0 && status !== 0) ? 1 : 0);
  } catch {
    console.error(`The ${kind} tests left no result.`);
    failed += 1;
  }
  tell(kind, since, status === 0);
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
