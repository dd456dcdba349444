// Type-checks each floor under its own compiler settings: the pure floors see no DOM and no Node, so a clock or
// a file cannot slip into a computation without failing here.
import { spawnSync } from "node:child_process";

const floors = ["src/tsconfig.pure.json", "src/tsconfig.node.json", "src/tsconfig.web.json", "tsconfig.json"];
let failed = 0;
for (const floor of floors) {
  const run = spawnSync("node_modules/.bin/tsc", ["-p", floor], { stdio: "inherit" });
  if (run.status !== 0) failed += 1;
}
process.exitCode = failed === 0 ? 0 : 1;
