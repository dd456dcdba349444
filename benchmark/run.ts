// Prints the medians of every benchmark. Compare ratios within one run; machines differ.
import { benchmarkDevice } from "./device.ts";
import { benchmarkFlow } from "./flow.ts";
import { benchmarkPage } from "./page.ts";
import { benchmarkPlan } from "./plan.ts";

for (const { name, median, unit } of [
  ...benchmarkPlan(),
  ...benchmarkDevice(),
  ...benchmarkFlow(),
  ...(await benchmarkPage()),
])
  console.log(`${name.padEnd(62)} ${Number.isNaN(median) ? "not measured here" : `${median.toFixed(2)} ${unit}`}`);
