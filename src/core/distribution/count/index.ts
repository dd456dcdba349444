export * from "./poisson.ts";
export * from "./binomial.ts";
export * from "./negative-binomial.ts";
