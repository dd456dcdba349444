import { cancerPanel2025, panel2015Recalled, rule, trade, type RuleOrigin } from "./rule-with-row.ts";

/** What no other reason outweighs, at any age. */
const everyone = { groups: ["adult", "child", "newborn"], layer: "stop" } as const;
const adult = { groups: ["adult"], layer: "stop" } as const;
const grown = { groups: ["adult", "child"], layer: "stop" } as const;

const kidney: RuleOrigin = {
  source: "Chopra V and others 2022, BMJ Qual Saf 31:23, by the criteria of 2015",
  place: "abstract: appropriate only at a filtration of 45 and over",
  howKnown: "published",
};

export const stopRules = [
  rule(
    "kidney-barred",
    { ...adult, when: { kidney: ["barred"] }, ratings: { PICC: "barred", "tunnelled PICC": "barred" } },
    "The arm veins are kept for dialysis.",
    kidney,
  ),
  rule(
    "kidney-barred-midline",
    {
      ...adult,
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
      ...adult,
      when: { kidney: ["barred"], band: ["short"], route: ["peripheral"] },
      ratings: { "short peripheral cannula": "first choice" },
    },
    "A few days: a cannula in a vein of the hand.",
    panel2015Recalled("kidney disease"),
  ),
  rule(
    "kidney-barred-longer",
    {
      ...adult,
      when: { kidney: ["barred"], band: ["middle", "long", "longest"] },
      ratings: { "small-bore tunnelled jugular line": "first choice", "short peripheral cannula": "inappropriate" },
    },
    "A longer need: a small tunnelled line in the neck spares the arms.",
    panel2015Recalled("kidney disease"),
  ),
  rule(
    "kidney-barred-central",
    {
      ...adult,
      when: { kidney: ["barred"], band: ["short"], route: ["central"] },
      ratings: { "small-bore tunnelled jugular line": "first choice" },
    },
    "A central drug: a small tunnelled line in the neck spares the arms.",
    panel2015Recalled("kidney disease"),
  ),
  rule(
    "kidney-barred-soon",
    {
      ...adult,
      when: { kidney: ["barred"], criticallyIll: ["yes"], route: ["central"], band: ["short", "middle"] },
      ratings: {
        "non-tunnelled central line": "first choice",
        "small-bore tunnelled jugular line": "appropriate",
      },
    },
    "Critically ill and the arms kept: a short-term line in the neck, not under the collarbone.",
    trade,
  ),
  rule(
    "kidney-barred-cancer",
    {
      ...adult,
      when: { kidney: ["barred"], cancer: ["solid", "blood"], route: ["central"], band: ["short", "middle"] },
      ratings: { "non-tunnelled central line": "first choice" },
    },
    "Cancer and the arms kept: a short-term line in the neck to two weeks, the kidney team first.",
    cancerPanel2025("abstract and snapshot: kidney disease"),
  ),
  rule(
    "kidney-barred-cancer-later",
    {
      ...adult,
      when: { kidney: ["barred"], cancer: ["solid", "blood"], route: ["central"], band: ["long", "longest"] },
      ratings: { "tunnelled cuffed line": "first choice" },
    },
    "Cancer and the arms kept: a tunnelled line from the third week, the kidney team first.",
    cancerPanel2025("abstract and snapshot: kidney disease"),
  ),
  rule(
    "child-kidney-barred",
    {
      groups: ["child"],
      layer: "stop",
      when: { kidney: ["barred"] },
      ratings: {
        PICC: "barred",
        "tunnelled PICC": "barred",
        midline: "barred",
        "small-bore tunnelled jugular line": "first choice",
      },
    },
    "The arm veins are kept for dialysis; the rule is carried over from adults.",
    trade,
  ),
  rule(
    "nobody-to-flush",
    {
      ...everyone,
      when: { carer: ["nobody"], setting: ["home", "nursing home", "no fixed place"] },
      ratings: {
        none: "appropriate",
        "short peripheral cannula": "inappropriate",
        "ultrasound-guided long cannula": "inappropriate",
        midline: "barred",
        PICC: "barred",
        "tunnelled PICC": "barred",
        "non-tunnelled central line": "barred",
        "small-bore tunnelled jugular line": "barred",
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
    "We found no treatment that needs a line.",
    panel2015Recalled("single indications"),
  ),
  rule(
    "oral-possible",
    {
      ...everyone,
      when: { oral: ["possible"], nutrition: ["no"], vesicant: ["no"] },
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
      ...grown,
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
      ...grown,
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
