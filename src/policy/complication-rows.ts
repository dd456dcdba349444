import { fromMemory, local, published, row } from "./row.ts";

const mermel = "Mermel LA and others 2009, Clin Infect Dis 49:1";

/** Limits of reading cultures, naming infections and weighing a clot. Surveillance definitions are dated rows of their own. */
export const complicationRows = {
  "complication.culture-differential": row(
    120,
    "min",
    "The line's bottle flags at least this much before the peripheral one",
    published(mermel, "diagnosis"),
    [30, 360],
  ),
  "complication.culture-draw-gap": row(15, "min", "Two bottles drawn farther apart are not compared", local, [1, 60]),
  "complication.culture-load-gap": row(
    30,
    "min",
    "Two bottles loaded farther apart are not compared, and the laboratory is asked",
    local,
    [1, 240],
  ),
  "complication.culture-volume-ratio": row(
    1.25,
    "larger over smaller",
    "Two bottles of less like volumes are not compared",
    local,
    [1, 3],
  ),
  "complication.quantitative-fold": row(
    3,
    "times",
    "The line's sample grows at least so many times more",
    published(mermel, "diagnosis"),
    [1, 20],
  ),
  "complication.quantitative-fold-older": row(
    5,
    "times",
    "The older fold, shown beside it",
    published("Mermel LA and others 2001, Clin Infect Dis 32:1249", "paired quantitative cultures"),
    [1, 20],
  ),
  "complication.tip-roll-plate": row(
    15,
    "CFU",
    "A tip with more than this by roll-plate is colonised",
    published(mermel, "diagnosis"),
    [1, 1000],
  ),
  "complication.tip-sonication": row(
    100,
    "CFU",
    "A tip with more than this by sonication is colonised",
    {
      ...published(mermel, "diagnosis"),
      others: ["1,000: O'Grady NP and others 2002, MMWR Recomm Rep 51(RR-10)", "1,000 CFU/mL: European surveillance"],
    },
    [1, 10_000],
  ),
  "complication.exit-site": row(
    2,
    "cm",
    "Skin signs within this of the exit are an exit-site infection",
    published(mermel, "table of definitions"),
    [0.5, 5],
  ),
  "complication.treated-growth": row(
    72,
    "hours",
    "Blood still growing this long into the right treatment speaks for removal",
    fromMemory(mermel, "removal"),
    [24, 168],
  ),
  "complication.lock-days": row(
    [10, 14],
    "days",
    "How long a lock has been tried for other organisms",
    fromMemory(mermel, "lock therapy"),
    [1, 42],
  ),
  "complication.clot-likely-from": row(
    2,
    "points",
    "From this score a clot of the arm is likely and imaged",
    fromMemory("Kleinjan A and others 2014, Ann Intern Med 160:451", "score of Constans J and others 2008"),
    [-1, 3],
  ),
  "complication.anticoagulate": row(
    3,
    "months",
    "Guidelines treat a clot at least this long, or as long as the line stays",
    published("Rajasekhar A and Streiff MB 2017, Blood 129:2727", "treatment"),
    [1, 12],
  ),
} as const;
