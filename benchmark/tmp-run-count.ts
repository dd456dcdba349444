import { benchmarkCount } from "./count.ts";
for (const { name, median, unit } of await benchmarkCount(Number(process.argv[2]), Number(process.argv[3] ?? 3)))
  console.log(name.padEnd(70), median.toFixed(3), unit);
console.log("rss MB", (process.memoryUsage().rss / 1e6).toFixed(0));
