export * from "./length-input.ts";
export * from "./length-way.ts";
export * from "./formula.ts";
export * from "./refused-formula.ts";
export type { LengthPerson, LengthPlace } from "./ways-to-length.ts";
export * from "./expected-length.ts";
export * from "./trim.ts";
