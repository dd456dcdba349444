/**
 * One rule's outcome as data. The core returns codes and values; src/language turns them into sentences.
 *   verdict   what the rule found
 *   level     what the person must do about it: stop (resolve first), ask (one question), note (quiet)
 */
export type Verdict = "met" | "at the limit" | "not met" | "not known";
export type Level = "stop" | "ask" | "note";
export type FindingValue = number | string | boolean | readonly string[];

export interface Finding {
  /** Stable code in kebab case, documented in docs/reference/finding.md. */
  readonly code: string;
  readonly verdict: Verdict;
  /** Absent when the rule is met and there is nothing to say. */
  readonly level?: Level;
  /** What was found and the limit it was held against; units stand in the names. */
  readonly values: Readonly<Record<string, FindingValue>>;
  /** Keys of the policy rows the rule read: their source and how-known are printed beside the sentence. */
  readonly policy: readonly string[];
  /** Where in the entry it belongs, for example "survey.left.basilic.stations.2.depthMm". */
  readonly path?: string;
}

export const isStop = (finding: Finding): boolean => finding.level === "stop";
export const isAsk = (finding: Finding): boolean => finding.level === "ask";

/** Makes a finding; the parts that are absent stay absent. */
export function finding(
  code: string,
  verdict: Verdict,
  level: Level | undefined,
  values: Finding["values"] = {},
  more: { readonly policy?: readonly string[]; readonly path?: string | undefined } = {},
): Finding {
  const { policy = [], path } = more;
  return { code, verdict, values, policy, ...(level ? { level } : {}), ...(path ? { path } : {}) };
}
