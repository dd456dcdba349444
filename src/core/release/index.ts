export * from "./release-facts.ts";
export * from "./release.ts";
export * from "./side-agreement.ts";
export * from "./vesicant-conditions.ts";
export { TIP_STOP } from "./tip-stop.ts";
