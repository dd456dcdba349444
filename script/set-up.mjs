// @ts-check
// What `npm start` and `npm test` need before anything else: the locked packages, and for tests the system's browser and
// PDF reader. Built-ins only, since this runs before anything is installed.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";

const STAMP = "node_modules/.veinwright-lock";

/** @param {string} command @param {string[]} args */
export function run(command, args) {
  const { status } = spawnSync(command, args, { stdio: "inherit", shell: process.platform === "win32" });
  return status === 0;
}

/** Installs what the lock names, unless this very lock is installed already. */
export function installPackages() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Node ${process.versions.node} is too old: install Node 20.19 or later, then run this again.`);
    process.exit(1);
  }
  const lock = createHash("sha256").update(readFileSync("package-lock.json")).digest("hex");
  if (existsSync(STAMP) && readFileSync(STAMP, "utf8") === lock) return;
  if (!run("npm", ["ci"])) process.exit(1);
  mkdirSync("node_modules", { recursive: true });
  writeFileSync(STAMP, lock);
}

/** @param {string} command */
const has = (command) => spawnSync("sh", ["-c", `command -v ${command}`]).status === 0;

/** R is the other opinion on the statistics: with it, its kept values are repeated live; without it the tests say so. */
function installOtherOpinion() {
  if (has("Rscript") || process.getuid?.() !== 0 || !has("apt-get")) return;
  console.log("Installing R for the live comparison of the statistics ...");
  const wanted = ["r-base-core", "r-cran-survival", "r-cran-cmprsk", "r-cran-mass"];
  run("apt-get", ["update", "-qq"]);
  if (!run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", ...wanted])) {
    console.log("R could not be installed; its kept values are used without repeating them.");
  }
}

/** The tests drive a real browser and measure real paper: both readers come from the system's package manager. */
export function installReaders() {
  installOtherOpinion();
  const wanted = [
    ...(process.env["VEINWRIGHT_CHROMIUM"] || has("chromium") ? [] : ["chromium"]),
    ...(has("pdftoppm") ? [] : ["poppler-utils"]),
  ];
  if (wanted.length === 0) return;
  if (process.getuid?.() === 0 && has("apt-get")) {
    console.log(`Installing ${wanted.join(" and ")} for the tests ...`);
    run("apt-get", ["update", "-qq"]);
    if (run("apt-get", ["install", "-y", "-qq", ...wanted])) return;
  }
  console.error(
    `The tests need more: run \`sudo apt-get install ${wanted.join(" ")}\`. (For a browser elsewhere, set VEINWRIGHT_CHROMIUM to its path.)`,
  );
  process.exit(1);
}
