import { isMissing, type Maybe } from "../missing/index.ts";
import { centimetre, type Centimetre } from "../quantity/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { RemovalLimits } from "./care-limits.ts";

export interface Removal {
  /** Inside and outside length as it was left at placing. */
  readonly placedCm: Maybe<Centimetre>;
  /** Cut off since then, as the record says; 0 where it says that nothing was. */
  readonly trimmedLaterCm: Maybe<Centimetre>;
  readonly outCm: Maybe<Centimetre>;
  readonly tipIntact: Maybe<boolean>;
  readonly infectionSuspected: Maybe<boolean>;
  readonly tipSentForCulture: Maybe<boolean>;
}

export interface RemovalJudgement {
  readonly completeness: "complete" | "incomplete" | "not known";
  /** Negative when more came out than the record holds. */
  readonly missingCm: Centimetre | undefined;
  readonly findings: readonly Finding[];
}

/** Tapes are read to a millimetre: finer differences are of binary numbers, not of catheters. */
const READ_TO_CM = 0.01;

/**
 * Whether the whole catheter came out.
 *   missing = placed - trimmed later - out;  complete within the tolerance, with the tip intact
 * Units: cm. Holds: all three lengths known, else it asks. Source: common practice, no source. Example: placed 45.0,
 * nothing trimmed, 40.0 out: incomplete, 5.0 missing: the patient stays.
 */
export function judgeRemoval(removal: Removal, limits: RemovalLimits): RemovalJudgement {
  const { placedCm, trimmedLaterCm, outCm, tipIntact } = removal;
  const policy = ["care.removal-tolerance"];
  const ask = (code: string, path: string) => finding(code, "not known", "ask", {}, { path });
  const questions = [
    ...(isMissing(placedCm) ? [ask("removal-placed-length-missing", "placedCm")] : []),
    ...(isMissing(trimmedLaterCm) ? [ask("removal-trim-missing", "trimmedLaterCm")] : []),
    ...(isMissing(outCm) ? [ask("removal-out-length-missing", "outCm")] : []),
    ...(isMissing(tipIntact) ? [ask("removal-tip-not-looked-at", "tipIntact")] : []),
  ];
  const more = [...questions, ...tipCulture(removal)];
  const broken = tipIntact === false ? [finding("removal-tip-not-intact", "not met", "stop")] : [];
  if (isMissing(placedCm) || isMissing(trimmedLaterCm) || isMissing(outCm))
    return {
      completeness: broken.length > 0 ? "incomplete" : "not known",
      missingCm: undefined,
      findings: [...broken, ...more],
    };
  const missingCm = Math.round((placedCm - trimmedLaterCm - outCm) / READ_TO_CM) * READ_TO_CM;
  const toleranceCm = limits.lengthToleranceCm;
  const values = { missingCm: Math.abs(missingCm), toleranceCm, outCm, expectedCm: placedCm - trimmedLaterCm };
  if (missingCm > toleranceCm + READ_TO_CM / 2 || broken.length > 0) {
    const short = missingCm > toleranceCm + READ_TO_CM / 2;
    const stop = short ? [finding("removal-incomplete", "not met", "stop", values, { policy })] : [];
    return { completeness: "incomplete", missingCm: centimetre(missingCm), findings: [...stop, ...broken, ...more] };
  }
  if (missingCm < -toleranceCm - READ_TO_CM / 2)
    return {
      completeness: "not known",
      missingCm: centimetre(missingCm),
      findings: [finding("removal-longer-than-record", "not known", "ask", values, { policy }), ...more],
    };
  const complete = finding("removal-complete", "met", undefined, values, { policy });
  return {
    completeness: isMissing(tipIntact) ? "not known" : "complete",
    missingCm: centimetre(missingCm),
    findings: [complete, ...more],
  };
}

/** A tip is cultured for a suspicion, never by habit. */
function tipCulture({ infectionSuspected, tipSentForCulture }: Removal): Finding[] {
  if (isMissing(infectionSuspected))
    return [finding("removal-infection-not-asked", "not known", "ask", {}, { path: "infectionSuspected" })];
  if (infectionSuspected && tipSentForCulture !== true) return [finding("tip-culture-for-suspicion", "met", "note")];
  return !infectionSuspected && tipSentForCulture === true
    ? [finding("tip-culture-without-suspicion", "not met", "note")]
    : [];
}
