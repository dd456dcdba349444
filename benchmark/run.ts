// Prints the medians of every benchmark. Compare ratios within one run; machines differ.
import { benchmarkDrugChart } from "./drug-chart.ts";
import { benchmarkPage } from "./page.ts";
import { benchmarkPlan } from "./plan.ts";

for (const { name, median, unit } of [...benchmarkPlan(), ...(await benchmarkDrugChart()), ...(await benchmarkPage())])
  console.log(`${name.padEnd(64)} ${median.toFixed(2)} ${unit}`);
