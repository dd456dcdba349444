import { local, row } from "./row.ts";

/** Where an entry is asked about because it may be in another unit. They ask and never decide: wide on purpose. */
export const plausibilityRows = {
  "plausible.times-usual-weight": row(
    1.6,
    "times",
    "A young child heavier than this many times the usual weight is asked about: pounds?",
    local,
    [1.1, 4],
  ),
  "plausible.share-usual-weight": row(
    0.5,
    "of the usual weight",
    "A child of 1 to 12 years lighter than this is asked about: months?",
    local,
    [0.1, 0.9],
  ),
  "plausible.least-adult-weight": row(25, "kg", "An adult lighter than this is asked about", local, [10, 45]),
  "plausible.least-body-mass-index": row(9, "kg/m2", "Weight for height under this is asked about", local, [5, 15]),
  "plausible.most-body-mass-index": row(
    60,
    "kg/m2",
    "Weight for height over this is asked about: pounds?",
    local,
    [35, 100],
  ),
  "plausible.shortest-adult": row(120, "cm", "An adult height under this is asked about: inches?", local, [80, 145]),
  "plausible.shortest-adult-tape": row(
    25,
    "cm",
    "An adult tape from arm to heart shorter than this is asked about: inches?",
    local,
    [10, 40],
  ),
  "plausible.shortest-adult-arm": row(
    12,
    "cm",
    "An adult upper arm shorter than this is asked about: inches?",
    local,
    [8, 18],
  ),
  "plausible.longest-adult-arm": row(35, "cm", "An adult upper arm longer than this is asked about", local, [25, 50]),
  "plausible.most-arm-share-of-height": row(
    0.22,
    "of the height",
    "An upper arm longer than this share of the height is asked about",
    local,
    [0.15, 0.4],
  ),
  "plausible.narrowest-vein": row(
    0.6,
    "mm",
    "A vein narrower than this is asked about: centimetres?",
    local,
    [0.1, 1.5],
  ),
  "plausible.widest-vein": row(10, "mm", "A vein wider than this is asked about: a lost point?", local, [6, 20]),
  "plausible.shallowest-adult-vein": row(
    2,
    "mm",
    "An adult vein less deep than this is asked about: centimetres?",
    local,
    [0.5, 5],
  ),
} as const;
