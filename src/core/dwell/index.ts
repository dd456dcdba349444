export * from "./moment.ts";
export * from "./stay.ts";
export * from "./day-count.ts";
export * from "./surveillance.ts";
export * from "./surveillance-frame.ts";
export * from "./denominator.ts";
