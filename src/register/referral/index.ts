export * from "./referral-events.ts";
export * from "./referral-view.ts";
