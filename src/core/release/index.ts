export * from "./release-facts.ts";
export * from "./release.ts";
export * from "./side-agreement.ts";
export * from "./vesicant-conditions.ts";
export { OPEN_SIGN, SIGN_STOP, TIP_STOP } from "./tip-stop.ts";
