export * from "./creatinine.ts";
export * from "./filtration.ts";
export * from "./filtration-trend.ts";
export * from "./judge-kidney.ts";
