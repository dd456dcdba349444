// @ts-check
// `npm test` on a fresh clone: does its own set-up, then runs the whole gate.
import { installBrowser, installPackages } from "./set-up.mjs";

installPackages();
installBrowser();
await import("./check.mjs");
