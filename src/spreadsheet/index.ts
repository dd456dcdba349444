export * from "./file/index.ts";
export * from "./match/index.ts";
export * from "./line/index.ts";
