// Prints the medians of every benchmark. Compare ratios within one run; machines differ.
import { benchmarkCare } from "./care.ts";
import { benchmarkCount } from "./count.ts";
import { benchmarkCountPage } from "./count-page.ts";
import { benchmarkDevice } from "./device.ts";
import { benchmarkDrugChart } from "./drug-chart.ts";
import { benchmarkFlow } from "./flow.ts";
import { benchmarkPage } from "./page.ts";
import { benchmarkPlan } from "./plan.ts";
import { benchmarkSpreadsheet } from "./spreadsheet.ts";
import { benchmarkStore } from "./store.ts";
import { benchmarkToday } from "./today.ts";

for (const { name, median, unit } of [
  ...benchmarkPlan(),
  ...benchmarkDevice(),
  ...benchmarkCare(),
  ...(await benchmarkDrugChart()),
  ...benchmarkFlow(),
  ...benchmarkToday(),
  ...(await benchmarkPage()),
  ...(await benchmarkSpreadsheet()),
  ...(await benchmarkStore()),
  ...(await benchmarkCountPage()),
  ...(await benchmarkCount()),
])
  console.log(`${name.padEnd(64)} ${Number.isNaN(median) ? "not measured here" : `${median.toFixed(2)} ${unit}`}`);
