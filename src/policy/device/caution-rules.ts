import { rule, trade } from "./rule-with-row.ts";

/** What lowers a device and lifts none: the arm may be needed, or the evidence speaks against. */
const caution = { layer: "stop", atMost: true } as const;
const arm = {
  PICC: "uncertain",
  "tunnelled PICC": "uncertain",
  midline: "uncertain",
  "ultrasound-guided long cannula": "uncertain",
} as const;

export const cautionRules = [
  rule(
    "kidney-assess",
    { ...caution, groups: ["adult", "child"], when: { kidney: ["assess"] }, ratings: arm },
    "The kidney team looks at the arm veins first.",
    {
      source: "Hoggard J and others 2008, Semin Dial 21:186, position of two societies on veins in kidney disease",
      place: "summary in a guideline archive",
      howKnown: "published",
    },
  ),
  rule(
    "pregnancy",
    {
      ...caution,
      groups: ["adult", "child"],
      when: { pregnancy: ["yes"] },
      ratings: {
        PICC: "uncertain",
        "tunnelled PICC": "uncertain",
        "non-tunnelled central line": "uncertain",
        "small-bore tunnelled jugular line": "uncertain",
        "tunnelled cuffed line": "uncertain",
        "implanted port": "uncertain",
      },
    },
    "33 pregnant women with a PICC: two of three treated for infection or clot.",
    {
      source: "Holmgren C and others 2008, Am J Obstet Gynecol 198:56.e1; Cape AV and others 2014, JPEN 38:595",
      place: "abstracts; small series, of PICCs only",
      howKnown: "published",
    },
  ),
  rule(
    "one-arm-only",
    {
      ...caution,
      groups: ["adult", "child"],
      when: { armBars: ["one arm"], criticallyIll: ["yes"], band: ["short", "middle"] },
      ratings: { PICC: "uncertain", "tunnelled PICC": "uncertain" },
    },
    "With one arm left and a short need, the arm is spared.",
    trade,
  ),
  rule(
    "arms-barred-cannula",
    {
      ...caution,
      groups: ["adult", "child"],
      when: { armBars: ["both arms"] },
      ratings: { "short peripheral cannula": "uncertain" },
    },
    "Both arms are barred: a cannula only where the reason allows, perhaps the hand.",
    trade,
  ),
  rule(
    "newborn-kidney",
    { ...caution, groups: ["newborn"], when: { kidney: ["barred"] }, ratings: { PICC: "uncertain" } },
    "A newborn on dialysis: the newborn and kidney teams decide together.",
    trade,
  ),
];
