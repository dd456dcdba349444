export { curveGuards, rateGuards, type Guard } from "./guards.ts";
