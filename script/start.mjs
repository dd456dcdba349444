// @ts-check
// `npm start` on a fresh clone: installs what is locked, builds, and serves the page: on this machine only, or with
// `npm start -- --share NAME` to others over TLS.
import { spawn } from "node:child_process";
import { installPackages, run } from "./set-up.mjs";

installPackages();
if (!run(process.execPath, ["script/build.mjs"])) process.exit(1);
const server = spawn(process.execPath, ["dist/server/main.js", ...process.argv.slice(2)], { stdio: "inherit" });
server.on("exit", (code) => process.exit(code ?? 1));
// the server closes its store before it ends: this process waits for it
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => server.kill("SIGTERM"));
