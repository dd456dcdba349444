export * from "./lidocaine-ceiling.ts";
