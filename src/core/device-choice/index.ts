export * from "./device.ts";
export * from "./fact.ts";
export * from "./device-rule.ts";
export * from "./device-need.ts";
export * from "./rank-devices.ts";
export * from "./choose-device.ts";
export * from "./timing-notes.ts";
export * from "./answer-referral.ts";
