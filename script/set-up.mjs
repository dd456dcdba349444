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

/** The tests drive a real browser: installed by the system's package manager where that is possible. */
export function installBrowser() {
  if (process.env["VEINWRIGHT_CHROMIUM"] || has("chromium")) return;
  const isRoot = process.getuid?.() === 0;
  if (isRoot && has("apt-get")) {
    console.log("Installing chromium for the browser tests ...");
    run("apt-get", ["update", "-qq"]);
    run("apt-get", ["install", "-y", "-qq", "chromium"]);
  }
  if (!has("chromium")) {
    console.error(
      "The tests need Chromium: run `sudo apt-get install chromium`, or set VEINWRIGHT_CHROMIUM to its path.",
    );
    process.exit(1);
  }
}
