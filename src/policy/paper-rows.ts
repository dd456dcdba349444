import { local, row } from "./row.ts";

/** What a hospital's papers carry; nothing is invented for a real patient. */
export const paperRows = {
  "paper.phone": row("", "", "Phone on a line's papers where its owner has none", local),
} as const;
