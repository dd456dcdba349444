// @ts-check
// `npm start` on a fresh clone: installs what is locked, builds, and serves the page on this machine only.
import { spawn } from "node:child_process";
import { installPackages, run } from "./set-up.mjs";

installPackages();
if (!run(process.execPath, ["script/build.mjs"])) process.exit(1);
spawn(process.execPath, ["dist/server/main.js"], { stdio: "inherit" }).on("exit", (code) => process.exit(code ?? 1));
