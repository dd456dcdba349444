import { finding, type Finding, type Level, type Verdict } from "../reason/index.ts";

/** One rule held against one place: what was found, how it stands, the rows it read. */
export function found(
  code: string,
  verdict: Verdict,
  level: Level | undefined,
  policy: readonly string[],
  values: Finding["values"],
): Finding {
  return finding(code, verdict, level, values, { policy });
}

/** met says nothing, at the limit and not known ask, not met stops. */
export function usualLevel(verdict: Verdict): Level | undefined {
  if (verdict === "met") return undefined;
  return verdict === "not met" ? "stop" : "ask";
}
