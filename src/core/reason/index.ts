export * from "./finding.ts";
export * from "./policy-row.ts";
