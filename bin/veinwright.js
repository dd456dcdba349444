#!/usr/bin/env node
// Runs the built command line; says what to do when it is not built yet.
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const built = fileURLToPath(new URL("../dist/cli/main.js", import.meta.url));
if (!existsSync(built)) {
  console.error("The command line is not built yet: run `npm install && npm run build`, then this again.");
  process.exit(64);
}
await import(built);
