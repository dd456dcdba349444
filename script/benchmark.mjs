// @ts-check
// Bundles the benchmarks as the product is bundled, then runs them: the development loader would be measured instead.
import { build } from "esbuild";

await build({
  entryPoints: ["benchmark/run.ts"],
  outfile: "dist/benchmark/run.js",
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  packages: "external",
  logLevel: "warning",
});
await import(new URL("../dist/benchmark/run.js", import.meta.url).href);
