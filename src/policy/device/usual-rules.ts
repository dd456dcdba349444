import { panel2015, panel2015Recalled, rule } from "./rule-with-row.ts";

/** Adults by planned days and kind of infusate: the panel's two tables. */
const adult = { groups: ["adult"], layer: "usual" } as const;

export const usualRules = [
  rule(
    "short-peripheral",
    { ...adult, when: { route: ["peripheral"], band: ["short"] }, ratings: { PICC: "inappropriate" } },
    "A few days of a drug a peripheral vein tolerates do not need a PICC.",
    panel2015("abstract"),
  ),
  rule(
    "short-peripheral-instead",
    {
      ...adult,
      when: { route: ["peripheral"], band: ["short"] },
      ratings: {
        "short peripheral cannula": "first choice",
        "ultrasound-guided long cannula": "appropriate",
        midline: "uncertain",
      },
    },
    "A cannula does a few days; a midline is neither favoured nor refused.",
    panel2015Recalled("table of peripheral infusates"),
  ),
  rule(
    "middle-peripheral",
    {
      ...adult,
      when: { route: ["peripheral"], band: ["middle"] },
      ratings: { midline: "first choice", "ultrasound-guided long cannula": "first choice" },
    },
    "For one to two weeks a midline or a long cannula is preferred to a PICC.",
    panel2015("abstract"),
  ),
  rule(
    "middle-peripheral-picc",
    { ...adult, when: { route: ["peripheral"], band: ["middle"] }, ratings: { PICC: "appropriate" } },
    "For one to two weeks a PICC comes after a midline or a long cannula.",
    panel2015Recalled("table of peripheral infusates"),
  ),
  rule(
    "long-peripheral",
    {
      ...adult,
      when: { route: ["peripheral"], band: ["long"] },
      ratings: { PICC: "first choice", midline: "appropriate", "tunnelled cuffed line": "uncertain" },
    },
    "From the third week a PICC is preferred; midlines fail more after two weeks.",
    panel2015Recalled("table of peripheral infusates"),
  ),
  rule(
    "longest-peripheral",
    {
      ...adult,
      when: { route: ["peripheral"], band: ["longest"] },
      ratings: { PICC: "appropriate", "tunnelled cuffed line": "appropriate", "implanted port": "appropriate" },
    },
    "From a month on, PICC, tunnelled line and port stand level.",
    panel2015Recalled("table of peripheral infusates"),
  ),
  rule(
    "central-not-peripheral",
    {
      ...adult,
      when: { route: ["central"] },
      ratings: {
        "short peripheral cannula": "inappropriate",
        "ultrasound-guided long cannula": "inappropriate",
        midline: "inappropriate",
      },
    },
    "A drug that harms a small vein needs a tip near the heart.",
    panel2015Recalled("table of central infusates"),
  ),
  rule(
    "short-middle-central",
    {
      ...adult,
      when: { route: ["central"], band: ["short", "middle"] },
      ratings: { PICC: "appropriate", "non-tunnelled central line": "appropriate" },
    },
    "For up to two weeks of a central drug, a PICC or a short-term central line.",
    panel2015Recalled("table of central infusates"),
  ),
  rule(
    "long-central",
    {
      ...adult,
      when: { route: ["central"], band: ["long"] },
      ratings: {
        PICC: "appropriate",
        "tunnelled cuffed line": "appropriate",
        "non-tunnelled central line": "inappropriate",
      },
    },
    "From the third week of a central drug, a PICC or a tunnelled line.",
    panel2015Recalled("table of central infusates"),
  ),
  rule(
    "longest-central",
    {
      ...adult,
      when: { route: ["central"], band: ["longest"] },
      ratings: {
        PICC: "appropriate",
        "tunnelled cuffed line": "appropriate",
        "implanted port": "appropriate",
        "non-tunnelled central line": "inappropriate",
      },
    },
    "From a month on, a PICC, a tunnelled line or a port.",
    panel2015Recalled("table of central infusates"),
  ),
];
