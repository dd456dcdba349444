// @ts-check
// `npm test` on a fresh clone: does its own set-up, then runs the whole gate.
import { installReaders, installPackages } from "./set-up.mjs";

installPackages();
installReaders();
await import("./check.mjs");
