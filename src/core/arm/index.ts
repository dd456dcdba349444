export * from "./side.ts";
export * from "./thirds.ts";
export * from "./survey.ts";
export * from "./vein-profile.ts";
export * from "./needle-path.ts";
export * from "./tunnel.ts";
export * from "./needle-reach.ts";
