import type { Finding } from "../reason/index.ts";

/** One question about a number that was typed, with the readings it could have. */
export const question = (code: string, path: string, policy: string, values: Finding["values"]): Finding => ({
  code,
  verdict: "not known",
  level: "ask",
  values,
  policy: [policy],
  path,
});
