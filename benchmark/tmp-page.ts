import { benchmarkCountPage } from "./count-page.ts";
for (const { name, median, unit } of await benchmarkCountPage()) console.log(name.padEnd(80), median.toFixed(0), unit);
