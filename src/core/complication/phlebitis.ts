import { isMissing, type Maybe } from "../missing/index.ts";

export const PHLEBITIS_SIGNS = ["pain", "redness", "swelling", "hardness", "cord", "fever"] as const;
export type PhlebitisSign = (typeof PHLEBITIS_SIGNS)[number];

/** What was seen along the vein; each sign is yes, no or missing. */
export type PhlebitisSigns = Readonly<Record<PhlebitisSign, Maybe<boolean>>>;

export type PhlebitisGrade = 0 | 1 | 2 | 3 | 4 | 5;

export interface PhlebitisAnswer {
  /** Undefined while a sign that could change it is missing. */
  readonly grade: PhlebitisGrade | undefined;
  /** The lowest and highest grade that the missing signs leave. */
  readonly between: readonly [PhlebitisGrade, PhlebitisGrade];
}

/**
 * Grade 0 to 5 of phlebitis by its signs. Made for cannulas; none of the many scales is fully validated.
 *   1 one of pain, redness;  2 two of pain, redness, swelling;  3 pain, redness and hardness;  4 and a cord;  5 and fever
 * Holds: signs of one vein. Source: Jackson A 1998, Nurs Times 94(4):68 (from memory); steps as in print.
 * Example: pain and redness: 2.
 */
export function phlebitisGrade(signs: PhlebitisSigns): PhlebitisAnswer {
  const least = gradeOf((sign) => signs[sign] === true);
  const most = gradeOf((sign) => signs[sign] === true || isMissing(signs[sign]));
  return { grade: least === most ? least : undefined, between: [least, most] };
}

function gradeOf(has: (sign: PhlebitisSign) => boolean): PhlebitisGrade {
  if (has("pain") && has("redness") && has("hardness")) {
    if (!has("cord")) return 3;
    return has("fever") ? 5 : 4;
  }
  const early = (["pain", "redness", "swelling"] as const).filter(has).length;
  if (early >= 2) return 2;
  return early === 1 ? 1 : 0;
}
