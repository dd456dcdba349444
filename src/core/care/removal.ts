import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";

export interface RemovalPolicy {
  readonly agreesWithinCm: number;
}

/**
 * Whether all of a catheter came out: length out against the length last known inside the body.
 * missing part = inside - out, in cm; complete within the tolerance of local policy, and with a whole tip.
 * Source: measure and compare, common practice, no source. Example: inside 41.0, out 36.0: 5.0 missing, a stop.
 */
export function removalFinding(
  insideCm: Maybe<number>,
  outCm: Maybe<number>,
  tipWhole: Maybe<boolean>,
  policy: RemovalPolicy,
): Finding {
  const rows = { policy: ["care.removal-agrees"] };
  if (isMissing(outCm)) return finding("removal-length-missing", "not known", "stop");
  if (isMissing(insideCm)) return finding("removal-inside-not-known", "not known", "ask", { outCm });
  const missingCm = insideCm - outCm;
  // the tolerance itself is still complete; a tape reads to a millimetre
  if (Math.round(missingCm * 1000) > Math.round(policy.agreesWithinCm * 1000)) {
    return finding("removal-incomplete", "not met", "stop", { missingCm, insideCm, outCm }, rows);
  }
  if (isMissing(tipWhole)) return finding("removal-tip-not-looked-at", "not known", "ask", { outCm }, rows);
  if (!tipWhole) return finding("removal-tip-broken", "not met", "stop", { outCm }, rows);
  return missingCm < -policy.agreesWithinCm
    ? finding("removal-longer-than-inside", "not known", "ask", { insideCm, outCm }, rows)
    : finding("removal-complete", "met", undefined, { insideCm, outCm }, rows);
}
