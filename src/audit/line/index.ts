export * from "./line-row.ts";
export type { LineRowsFromRegister } from "./line-rows.ts";
