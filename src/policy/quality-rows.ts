import { commonPractice, fromMemory, local, row } from "./row.ts";

const growth = fromMemory("WHO Child Growth Standards 2006, widened by half and more");
const sizes = fromMemory("sizes the trade makes; common practice, no source");

/** Limits of the rules of the record's quality that came after the first fifteen. */
export const qualityRows = {
  "quality.least-size-of-lumens": row([1, 1.9, 4, 5], "Fr", "Less than this cannot hold 1, 2, 3, 4 lumens", sizes),
  "quality.small-catheter": row(
    [2, 50],
    "Fr, cm",
    "A catheter of the first size or less is not longer inside than the second",
    sizes,
  ),
  "quality.weight": row([0.3, 350], "kg", "A weight outside these is not taken", commonPractice),
  "quality.weight-ages": row([0, 1, 2, 5, 10, 15, 18], "years", "Ages from which the bands of weight hold", growth),
  "quality.weight-least": row([0.3, 3, 5, 8, 12, 20, 25], "kg", "A lower weight does not fit the age", growth),
  "quality.weight-most": row([15, 20, 30, 60, 120, 200, 350], "kg", "A higher weight does not fit the age", growth),
  "quality.replaced-gap": row(1, "d", "A line and the one it replaced may lie so far apart", commonPractice, [0, 14]),
  "quality.replaced-overlap": row(
    6,
    "h",
    "A line and the one it replaced may overlap so long",
    commonPractice,
    [0, 72],
  ),
  "quality.missing-warned": row(0.05, "", "A larger share of a value missing is told", commonPractice, [0, 0.5]),
  "quality.missing-most": row(
    0.2,
    "",
    "With a larger share of a factor missing no hazard model of several factors is made",
    commonPractice,
    [0.05, 1],
  ),
  "quality.missing-differs": row(
    0.01,
    "",
    "Missing in other shares with and without an event, less likely than this, is told",
    local,
    [0.0001, 0.1],
  ),
  "quality.manual-agrees": row(
    0.05,
    "",
    "Days counted by machine may differ so much from the days counted by hand",
    fromMemory("CDC/NHSN, Patient Safety Component Manual, ch. 4: within 5 %"),
    [0, 0.5],
  ),
} as const;
