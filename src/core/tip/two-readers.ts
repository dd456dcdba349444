import { finding, type Finding } from "../reason/index.ts";
import type { TipPolicy } from "./tip-policy.ts";

/**
 * Whether two readings of one film differ by no more than readers did in print. Neither reader is the right one, so the
 * sign of the difference says nothing and the wider end counts both ways.
 *   inside when |a - b| <= max(|low|, |high|)
 * Lengths in cm. Source: 25 films read by 23 radiologists (PMC5124912): -2.5 to +1.8 cm. Example: 2 cm apart is inside.
 */
export function judgeReaders(firstCm: number, secondCm: number, { readers }: Pick<TipPolicy, "readers">): Finding {
  const differenceCm = Math.abs(firstCm - secondCm);
  const mostCm = Math.max(Math.abs(readers.lowCm), Math.abs(readers.highCm));
  const values = { differenceCm, lowCm: readers.lowCm, highCm: readers.highCm };
  const policy = ["tip.readers-low", "tip.readers-high"];
  return differenceCm <= mostCm
    ? finding("readers-agree", "met", "note", values, { policy })
    : finding("readers-apart", "not met", "stop", values, { policy, path: "secondFilmCm" });
}
