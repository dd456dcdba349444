export * from "./chart.ts";
