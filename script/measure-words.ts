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
    "Placed in the period by this service. A line with `known_from` came with the patient and is none of these; its days and events count from then on.",
  ],
  ["lines removed", "`end_kind` removed, `end_at` in the period. Handed on is not removed."],
  [
    "lines in place at the end",
    "Placed, or where it came with the patient known from, before the end of the period and then still in: out or handed on later, or in place. A line of unknown end is one of these only where it was last known in after the last day of the period.",
  ],
  [
    "lines in the period",
    "Placed, or where it came with the patient known from, before the end of the period and not out or handed on before its beginning. A line of unknown end stays in every later period, for it may still be in an arm; its end counts as not known from the day after it was last seen. Handed on counts in the period of the handing on, not in those before.",
  ],
  [
    "exact line-days",
    "Minutes between placing (or `known_from`) and the end, clipped to the period, over 1,440. In place: up to `end_at` when it is written, else to noon of the day of the table. Unknown: up to the moment it was last known in; where nobody wrote one, the placing or `known_from`: one minute, one calendar day. A line known to the month (T7) has none.",
  ],
  [
    "calendar line-days, both ends",
    "Local dates from the first to the last, both counted, clipped to the period. Every line counts for itself, also beside another of the same patient.",
  ],
  [
    "events",
    "By their own local date in the period. An event before the date of placing is none. After removal or handing on: an infection to the day after, a clot as many days as `count.clot-days-after` says, any other event on the day itself. After the last known day of an unknown end it counts: it shows that the line was there. Of a line with `known_from`, an event on a local date before it is none, as no day of then is counted (delayed entry): it sets no repeat frame, and is no fault of the record. A line known to the month (T7) has none. Where `events` is empty or not known, the line's days count and no event. One written as kind@not known, of which only the day is not known, counts in no period.",
  ],
  ["infection: clinical, paired culture", "Each infection whose flag says yes, repeats too."],
  [
    "infection: surveillance",
    "Flag says yes, the date is the third or a later calendar day of the line (placing is day 1), the line itself reached a third day (one in place or of unknown end is taken to have), and no kept infection of the same patient, at any line, lies less than 14 days before; the frame reaches back before the period.",
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
  ["short stay", "Placing to removal in exact days is at most `count.short-stay`. Known to the month (T7): not known."],
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
    "Each infection whose flag has no answer (for surveillance: on a day on which it could count, whatever the frame), each removal in the period whose reason names an event of the kind that nobody wrote down (infection, clot, blocked, tip moved, came out, leak or break), each event without a day of a line that was in on some day of the period, once for each kind (an infection under every flag, also before a third day), and each line of unknown end, last known in before the end of the period, without a counted event. Lower bound: counted events over the days if each unknown end had stayed to the end of the period. Upper: counted events and all of these over the days counted. Around the bounds: the lower exact limit of the first, the upper exact limit of the second; of shares likewise. Bounds are told where something is not known, or an unknown end could have stayed longer.",
  ],
  [
    "stops",
    "T9 leaves out both lines, the one out by the first death and each that shows the person alive on a later day. L2 is the same key, or the same patient and the same minute of placing, unless they are two stays of one line: handed on with the one, the other with a `known_from` at or after that `end_at` (to the minute where both have one, else by date); rows of dates alone are held against each other by the import.",
  ],
  [
    "curves",
    "Aalen and Johansen from the placing; `known_from` enters late. The first event, at its own time or at the end if later; removal and handing on are the other end; in place and unknown are censored at their last known moment. Variance by the delta method (Marubini and Valsecchi 1995), limits by log(-log) of one minus the share.",
  ],
  [
    "funnel",
    "Wards whose name is known, two with days and one event among them. Expected: days of the ward times the rate of these wards together; judged from `count.funnel-least` expected on. Given all their events, the count of one is binomial by its share of the days; a limit is the count whose tail, carried on between whole counts by the incomplete beta function, is as small as asked. Widened from `count.funnel-wide-from` judged wards on where they differ by more than chance.",
  ],
  [
    "rows used, rows given",
    "Shares: used, the lines of the set whose value is known; given, all lines of the set. Counts of lines: both the lines counted. Days: used, the lines with a day in the period; given, these and every line of the table that a stop took out, for its dates are not believed. Rates: given, also the lines of unknown end that could have had a day. Idle days: given, the lines whose stay touches the period, and the stopped. Of a part no stopped line is told.",
  ],
  [
    "provisional",
    "Of what is counted (of shares: of what passes), that which lies on the day of the table less `count.provisional-days`, or later: events and referrals by their day, lines removed by the removal, all other lines by the placing. Of days none.",
  ],
  [
    "never written down",
    "No line of the table, stopped or not, has an event of the kind; of a flag: no infection answers it. Then no value, no limit, no direction.",
  ],
  [
    "parts",
    "Third: 50 % is in the preferred half. Ratio: an edge belongs to the band below it, and the edge printed as 33.3333 % is a third exactly; C1 and C2 are not known. A part that stopped lines alone are in is not told. Attempts: 3 or more are one part. Not known is a part. Repeats of an infection are merged over the whole table and then split: each event that counts falls to the part of its own line, and the parts add up to the whole.",
  ],
  [
    "the month's pack",
    "Page 1: the month, and the twelve months before it. Higher or lower: the exact limits of the ratio of the two rates (limits of the month's share of all events, given the days) leave out one. Pages 3 and 4: the twelve months that end with the month, their lists too; stops passed are listed by code. Rules of quality: the whole table.",
  ],
  [
    "page 2, time",
    "The base: from the first placing of the table to the year; its rate with exact limits. Expected in a year: that rate over the year's line-days, put to 365.25 days. The year is cut into months from `count.monthly-from` expected events on, else into quarters, each with its events and its line-days between its own midnights.",
  ],
  [
    "enough to see a doubling",
    "Expected: events of the twelve months before, by the month's days over 365.25. Noticed: the smallest count whose chance to be reached is at most half of what `count.level` leaves.",
  ],
  [
    "lots",
    "Left: received less discarded less every line that carries the lot, stopped or not. Listed: some left, or fewer than none, and the date not more than `count.lot-expiry-days` after the day of the table, or past. Recalled: every line of the lot, stopped or not.",
  ],
];
