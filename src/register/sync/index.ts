export * from "./device-record.ts";
export * from "./evolve-device.ts";
export * from "./take-answer.ts";
export * from "./device-histories.ts";
export * from "./unseen-decision.ts";
export * from "./follows.ts";
export * from "./event-text.ts";
export * from "./practice-subjects.ts";
