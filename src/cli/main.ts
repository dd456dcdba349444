import { readFileSync } from "node:fs";
import { runCommandLine } from "./run.ts";

const { exit, output } = runCommandLine(process.argv.slice(2), (name) => readFileSync(name === "-" ? 0 : name, "utf8"));
process.stdout.write(`${output}\n`);
process.exitCode = exit;
