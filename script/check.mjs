// @ts-check
// The whole gate. Every step counts as one; every test counts as one; a skipped test counts as failed. Two lanes run
// beside each other, the browser's and all the rest, each part's words printed whole when it ends. Closes with the name
// of whatever failed and the plain line `N passed, N failed`.
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { relative } from "node:path";
import { SECOND_TRIES } from "./second-try.mjs";

const bin = (/** @type {string} */ name) => `node_modules/.bin/${name}`;
/** @typedef {[name: string, command: string, args: string[]]} Step */
/** @type {Step} */
const build = ["build", process.execPath, ["script/build.mjs"]];
/** @type {Step[]} */
const steps = [
  ["types", process.execPath, ["script/types.mjs"]],
  ["lint", bin("oxlint"), ["--type-aware"]],
  ["format", bin("oxfmt"), ["--check", "."]],
  ["dead code", bin("knip"), ["--no-progress"]],
];
const browserKinds = ["browser", "accessibility"];
// the documentation is held against what the reference run found, so it comes after it
const otherKinds = [
  "unit",
  "architecture",
  "property",
  "reference",
  "specification",
  "store-contract",
  "server",
  "acceptance",
  "documentation",
];

let passed = 0;
/** @type {string[]} */
const failures = [];

/** @param {string} command @param {string[]} args @returns {Promise<{ status: number | null, said: Buffer }>} */
const run = (command, args) =>
  new Promise((resolve) => {
    const child = spawn(command, args, { stdio: ["ignore", "pipe", "pipe"] });
    /** @type {Buffer[]} */
    const said = [];
    const keep = (/** @type {Buffer} */ chunk) => said.push(chunk);
    child.stdout.on("data", keep);
    child.stderr.on("data", keep);
    child.on("error", (error) => said.push(Buffer.from(`${error.message}\n`)));
    child.on("close", (status) => resolve({ status, said: Buffer.concat(said) }));
  });

/** @param {string} name @param {number} since @param {boolean} ok @param {Buffer} said */
function tell(name, since, ok, said) {
  process.stdout.write(said);
  console.log(`${ok ? "ok  " : "FAIL"} ${name} (${((Date.now() - since) / 1000).toFixed(1)} s)`);
}

/** @param {Step} step */
async function runStep([name, command, args]) {
  const since = Date.now();
  const { status, said } = await run(command, args);
  if (status === 0) passed += 1;
  else failures.push(name);
  tell(name, since, status === 0, said);
}

/** Counts what one kind's report holds; a report that is missing, empty or at odds with how the run ended is a failure.
 * @param {string} kind @param {string} report @param {number | null} status */
function count(kind, report, status) {
  const before = failures.length;
  try {
    const result = JSON.parse(readFileSync(report, "utf8"));
    passed += result.numPassedTests;
    for (const file of result.testResults) {
      const where = `${kind}: ${relative(process.cwd(), file.name)}`;
      const bad = file.assertionResults.filter((/** @type {{ status: string }} */ test) => test.status !== "passed");
      for (const test of bad) failures.push(`${where}: ${test.fullName} (${test.status})`);
      if (file.status !== "passed" && bad.length === 0) failures.push(`${where}: ${file.message}`);
    }
    if (result.numTotalTests === 0) failures.push(`${kind}: no test ran`);
  } catch {
    failures.push(`${kind}: left no result`);
  }
  if (status !== 0 && failures.length === before) failures.push(`${kind}: ended with ${status}`);
}

/** @param {string} kind */
async function runKind(kind) {
  const since = Date.now();
  const report = `.cache/test-${kind}.json`;
  rmSync(report, { force: true });
  const reporters = [
    "--reporter=default",
    "--reporter=json",
    "--reporter=./script/second-try.mjs",
    `--outputFile.json=${report}`,
  ];
  const { status, said } = await run(bin("vitest"), ["run", "--project", kind, ...reporters]);
  count(kind, report, status);
  tell(kind, since, status === 0, said);
}

rmSync(".cache/validation", { recursive: true, force: true });
rmSync(SECOND_TRIES, { force: true });
mkdirSync(".cache", { recursive: true });
await runStep(build);
await Promise.all([
  (async () => {
    for (const kind of browserKinds) await runKind(kind);
  })(),
  (async () => {
    for (const step of steps) await runStep(step);
    for (const kind of otherKinds) await runKind(kind);
  })(),
]);
if (existsSync(SECOND_TRIES)) process.stdout.write(readFileSync(SECOND_TRIES));
for (const failure of failures) console.log(`FAILED ${failure}`);
console.log(`${passed} passed, ${failures.length} failed`);
process.exitCode = failures.length === 0 ? 0 : 1;
