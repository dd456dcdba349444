/**
 * How each set, clock and doubt of a measure is counted, in words: a statistician with a line table and this page alone
 * comes to the same numbers.
 */
export const measureWords: readonly (readonly [string, string])[] = [
  [
    "period",
    "From the midnight that opens its first day to the midnight that opens the day after its last. Midnight is that of the clock the table was written by: the offset of the placing, first sight or end written nearest to it. A line of dates alone stands on no clock and is cut at its dates, whatever the others were written by. Without dates: the last twelve whole months before the day of the table.",
  ],
  [
    "moment",
    "A date without a time is noon. A line with dates alone is counted from noon to noon of the wall clock; both dates the same: half a day, from six hours before noon to six after. One date beside one time: noon of that time's offset, or the middle of what the day leaves. In and out within a minute: one minute. Elapsed time is that of UTC.",
  ],
  [
    "lines placed",
    "Placed in the period by this service. A line with `known_from` came with the patient and is none of these; its days and events count.",
  ],
  ["lines removed", "`end_kind` removed, `end_at` in the period. Handed on is not removed."],
  [
    "lines in place at the end",
    "Placed, or known from, before the end of the period and then still in: out or handed on later, in place, or of unknown end and last seen in on that day or later.",
  ],
  [
    "lines in the period",
    "Placed before the end of the period and not out or handed on before its beginning. A line of unknown end stays in every later period, for it may still be in an arm; its end counts as not known from the day after it was last seen. Handed on counts in the period of the handing on, not in those before.",
  ],
  [
    "exact line-days",
    "Minutes between placing (or `known_from`) and the end, clipped to the period, over 1,440. In place: up to `end_at` when it is written, else to noon of the day of the table. Unknown: up to the day it was last known in.",
  ],
  [
    "calendar line-days, both ends",
    "Local dates from the first to the last, both counted, clipped to the period. Every line counts for itself, also beside another of the same patient.",
  ],
  [
    "events",
    "By their own local date in the period. An event before the date of placing is none. After removal or handing on: an infection to the day after, a clot as many days as `count.clot-days-after` says, any other event on the day itself. After the last known day of an unknown end it counts: it shows that the line was there.",
  ],
  ["infection: clinical, paired culture", "Each infection whose flag says yes, repeats too."],
  [
    "infection: surveillance",
    "Flag says yes, the date is the third or a later calendar day of the line (placing is day 1), the line itself reached a third day, and no kept infection of the same patient, at any line, lies less than 14 days before; the frame reaches back before the period.",
  ],
  [
    "any: any",
    "Every event of the other kinds, and each infection unless the clinical flag says no and the surveillance flag does not say yes. Flags without an answer count here.",
  ],
  [
    "shares",
    "Lines whose value is known are the denominator; the others are told as not known, and the bounds take them all as missed and all as hit. For `complete-` measures every line is in the denominator.",
  ],
  ["first attempt, one lumen", "`attempts` is 1; `lumens` is 1."],
  [
    "ratio within the upper edge",
    "size in French / 3 / vein diameter, or the written ratio where one of them is missing; at most the upper edge of `count.ratio-edges`, not rounded. Held by C1 or C2: not known.",
  ],
  ["middle third", "`position_percent` from 33 1/3 to 66 2/3, both counted in."],
  [
    "tip well placed, filtration low",
    "`tip_place` is one of `count.good-tip`; filtration below `count.low-filtration`, the limit itself not.",
  ],
  ["short stay", "Placing to removal in exact days is at most `count.short-stay`."],
  [
    "idle days",
    "The last days of each stay, as many as `idle_days` says, on the clock of the line-days they are held against: exact days run back from the very end. Both are cut at `known_from` and at the edges of the period, so that the idle are never more than all. Only lines whose idle days are known are in numerator and denominator.",
  ],
  [
    "referrals",
    "By the day the call came. Waiting and open are not known yet: outside the denominator, inside the bounds.",
  ],
  [
    "not known, of a rate",
    "Each infection whose flag has no answer (for surveillance: that would be eligible), each removal in the period whose reason names an event of the kind that nobody wrote down (infection, clot, blocked, tip moved, came out, leak or break), and each line of unknown end without a counted event. Lower bound: counted events over the days if each unknown end had stayed to the end of the period. Upper: counted events and all of these over the days counted.",
  ],
  [
    "stops",
    "T9 leaves out both lines, the one out by death and the later one. L2 is the same key, or the same patient and the same minute; rows of dates alone are held against each other by the import.",
  ],
  [
    "curves",
    "Aalen and Johansen from the placing; `known_from` enters late. The first event, at its own time or at the end if later; removal and handing on are the other end; in place and unknown are censored at their last known moment. Variance by the delta method (Marubini and Valsecchi 1995), limits by log(-log) of one minus the share.",
  ],
  [
    "funnel",
    "Expected: exact days of the ward times the rate of all. Limits are counts: the Poisson quantile q less (F(q) - p) / P(q), not below zero.",
  ],
];
