import { commonPractice, fromMemory, local, row } from "./row.ts";

const newborn = fromMemory("sizes the trade makes: 1 to 2 Fr for a newborn; common practice, no source");

/** What a spreadsheet's values are held against. Beyond them a row is asked about or a value is not taken. */
export const spreadsheetRows = {
  "sheet.oldest": row(115, "years", "A greater age in a spreadsheet is not taken", local, [100, 130]),
  "sheet.least-size": row(1, "Fr", "A smaller size in a spreadsheet is asked about", local, [0.5, 2]),
  "sheet.most-size": row(7, "Fr", "A greater size in a spreadsheet is asked about: gauge?", local, [5, 12]),
  "sheet.most-lumens": row(3, "lumens", "More lumens in a spreadsheet are asked about", local, [2, 5]),
  "sheet.narrowest-vein": row(
    1,
    "mm",
    "A narrower vein in a spreadsheet is asked about: the unit?",
    commonPractice,
    [0.1, 1.5],
  ),
  "sheet.widest-vein": row(10, "mm", "A wider vein in a spreadsheet is asked about: the unit?", local, [6, 20]),
  "sheet.shortest-inside": row(4, "cm", "A shorter inside length is asked about: the unit?", local, [2, 10]),
  "sheet.longest-inside": row(65, "cm", "A longer inside length is asked about: the unit?", local, [50, 80]),
  "sheet.most-attempts": row(10, "attempts", "More attempts in a spreadsheet are asked about", local, [4, 30]),
  "sheet.longest-stay": row(365, "days", "A longer stay in a spreadsheet is asked about", local, [90, 1500]),
  "sheet.order-days": row(
    14,
    "days",
    "A placing so far out of its neighbours' order is asked about when day and month changed places fit",
    local,
    [3, 60],
  ),
  "sheet.kind-rows": row(
    10,
    "rows",
    "A kind of catheter of so many rows tells which of its sizes are rare",
    local,
    [5, 100],
  ),
  "sheet.check-digit-share": row(
    0.9,
    "",
    "Numbers of which so many keep their check digit are numbers that have one",
    local,
    [0.5, 1],
  ),
  "sheet.narrowest-vein-newborn": row(
    0.6,
    "mm",
    "As the narrowest vein, for a line no larger than sheet.newborn-size",
    commonPractice,
    [0.1, 1.5],
  ),
  "sheet.newborn-size": row(2, "Fr", "A line of this size or less may lie in a newborn's vein", newborn, [1, 3]),
  "sheet.swapped-share": row(
    0.5,
    "",
    "With a larger share of rows removed before they were placed the two columns are taken to be swapped",
    commonPractice,
    [0.2, 1],
  ),
} as const;
