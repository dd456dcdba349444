export { curveGuards, partGuards, rateGuards, type Guard, type PartGuard } from "./guards.ts";
