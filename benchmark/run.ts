// Prints the medians of every benchmark. Compare ratios within one run; machines differ.
import { benchmarkPage } from "./page.ts";
import { benchmarkPlan } from "./plan.ts";

for (const { name, median, unit } of [...benchmarkPlan(), ...(await benchmarkPage())])
  console.log(`${name.padEnd(56)} ${median.toFixed(2)} ${unit}`);
