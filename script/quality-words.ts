/** How a rule of quality is held, where its one sentence leaves a choice. */
export const heldWords: readonly (readonly [string, string])[] = [
  ["T1", "Also: last known in before it was placed, or before `known_from`."],
  [
    "T2",
    "Placed, known from, out, handed on, or of unknown end last known in, on a day after that of the table. An event that lies ahead is kept.",
  ],
  [
    "T5",
    "Above `count.long-dwell`, or above the stay of rank (`count.long-dwell-share` times the number, rounded up) of all removed lines, placing to removal: below a thousand none.",
  ],
  ["T6", "In place and `end_at` more than `count.lost-days` before the day of the table. Its days already stop there."],
  ["T7", "No line-days, no events, no idle days; a short stay not known. It stays in the counts of lines."],
  [
    "T9",
    "From the local day after the first death: another line placed, last known in, out or handed on; of a second death the day before it.",
  ],
  ["E3", "`surveillance=yes` before the third day of the line, or of a line that never reached one."],
  ["E4", "Of infections with `surveillance=yes` that belong to their line, also those that cannot count."],
  ["E5", "`infection` and `clot` alone."],
  [
    "E6",
    "The same person and local date at two lines. It counts for the line with `paired=yes`, else for the one placed on the earlier date, else for the first in the table.",
  ],
  [
    "L1",
    "Of a person's lines in one vein of one arm, in the order of the placing, each against the next: placed before the day on which the one before ended or was last known in. A shared day is no overlap.",
  ],
  [
    "L2",
    "A line handed on that came back is no line twice: one row handed on, another with a `known_from` at or after that `end_at` (to the minute where both have one, else by date), under a key of its own. Its two stays are no L1.",
  ],
  [
    "L3",
    "By `replaces_key`; else, of a line out because it was replaced, the person's later line nearest to its end. A date alone is its noon. A line in place or of unknown end meets none. Both lines are told, stopped ones too.",
  ],
  [
    "C1",
    "Size over vein (the written ratio where one is missing) outside `count.ratio-possible`, or the written ratio farther from it than `count.ratio-agrees` times size over vein.",
  ],
  ["C2", "Size and lumens; size and length; weight where it does not fit the age. With the size the written ratio."],
];
