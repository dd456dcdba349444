import { panel2015Recalled, rule, trade, type RuleOrigin } from "./rule-with-row.ts";

/** What no other reason outweighs, at any age. */
const everyone = { groups: ["adult", "child", "newborn"], layer: "stop" } as const;

const kidney: RuleOrigin = {
  source: "Chopra V and others 2022, BMJ Qual Saf 31:23, by the criteria of 2015",
  place: "abstract: appropriate only at a filtration of 45 and over",
  howKnown: "published",
};

export const stopRules = [
  rule(
    "kidney-barred",
    { ...everyone, when: { kidney: ["barred"] }, ratings: { PICC: "barred", "tunnelled PICC": "barred" } },
    "The arm veins are kept for dialysis.",
    kidney,
  ),
  rule(
    "kidney-barred-midline",
    {
      ...everyone,
      when: { kidney: ["barred"] },
      ratings: { midline: "barred", "ultrasound-guided long cannula": "inappropriate" },
    },
    "Every long catheter in an arm vein can cost a fistula.",
    {
      source: "Infusion therapy standards of practice 2016, midlines",
      place: "quoted summary",
      howKnown: "published",
    },
  ),
  rule(
    "kidney-barred-short",
    {
      ...everyone,
      when: { kidney: ["barred"], band: ["short"], route: ["peripheral"] },
      ratings: { "short peripheral cannula": "first choice" },
    },
    "A few days: a cannula in a vein of the hand.",
    panel2015Recalled("kidney disease"),
  ),
  rule(
    "kidney-barred-longer",
    {
      ...everyone,
      when: { kidney: ["barred"], band: ["middle", "long", "longest"] },
      ratings: { "small-bore tunnelled jugular line": "first choice", "short peripheral cannula": "inappropriate" },
    },
    "A longer need: a small tunnelled line in the neck spares the arms.",
    panel2015Recalled("kidney disease"),
  ),
  rule(
    "kidney-barred-central",
    {
      ...everyone,
      when: { kidney: ["barred"], band: ["short"], route: ["central"] },
      ratings: { "small-bore tunnelled jugular line": "first choice" },
    },
    "A central drug: a small tunnelled line in the neck spares the arms.",
    panel2015Recalled("kidney disease"),
  ),
  rule(
    "nobody-to-flush",
    {
      ...everyone,
      when: { carer: ["nobody"], setting: ["home", "nursing home"] },
      ratings: {
        none: "first choice",
        midline: "barred",
        PICC: "barred",
        "tunnelled PICC": "barred",
        "tunnelled cuffed line": "barred",
      },
    },
    "A line that nobody flushes and dresses blocks, or infects.",
    trade,
  ),
  rule(
    "request-only",
    {
      ...everyone,
      when: { purpose: ["request only"] },
      ratings: {
        none: "first choice",
        midline: "inappropriate",
        PICC: "inappropriate",
        "tunnelled PICC": "inappropriate",
        "tunnelled cuffed line": "inappropriate",
        "implanted port": "inappropriate",
      },
    },
    "A wish without a need is no reason for a line.",
    panel2015Recalled("single indications"),
  ),
  rule(
    "oral-possible",
    {
      ...everyone,
      when: { oral: ["possible"] },
      ratings: {
        none: "first choice",
        PICC: "inappropriate",
        "tunnelled PICC": "inappropriate",
        midline: "inappropriate",
      },
    },
    "A drug that can be swallowed needs no line.",
    trade,
  ),
  rule(
    "arms-barred",
    {
      ...everyone,
      when: { armBars: ["both arms"] },
      ratings: {
        midline: "barred",
        PICC: "barred",
        "tunnelled PICC": "barred",
        "ultrasound-guided long cannula": "inappropriate",
      },
    },
    "Both arms are barred.",
    trade,
  ),
  rule(
    "arms-barred-instead",
    {
      ...everyone,
      when: { armBars: ["both arms"], band: ["middle", "long", "longest"] },
      ratings: { "small-bore tunnelled jugular line": "first choice" },
    },
    "With both arms barred a tunnelled line in the neck is the next way.",
    trade,
  ),
  rule(
    "vesicant-peripheral",
    {
      ...everyone,
      when: { vesicant: ["yes"] },
      ratings: {
        "short peripheral cannula": "inappropriate",
        "ultrasound-guided long cannula": "inappropriate",
        midline: "inappropriate",
      },
    },
    "A vesicant outside the vein kills tissue.",
    panel2015Recalled("table of central infusates"),
  ),
];
