import { cancerPanel2025, panel2015, panel2015Recalled, rule, trade } from "./rule-with-row.ts";

/** Adults to whom the usual tables do not apply. */
const adult = { groups: ["adult"], layer: "situation" } as const;
const arms = { PICC: "inappropriate", "tunnelled PICC": "inappropriate" } as const;

export const situationRules = [
  rule(
    "difficult-veins-short",
    {
      ...adult,
      when: { difficultVeins: ["yes"], route: ["peripheral"], band: ["short"] },
      ratings: { "ultrasound-guided long cannula": "first choice", "short peripheral cannula": "appropriate" },
    },
    "Veins hard to find are found by ultrasound, not by a longer line.",
    panel2015Recalled("table of peripheral infusates"),
  ),
  rule(
    "critically-ill",
    {
      ...adult,
      when: { criticallyIll: ["yes"], route: ["central"], band: ["short", "middle"] },
      ratings: { "non-tunnelled central line": "first choice", PICC: "appropriate" },
    },
    "In critical illness a short-term central line is preferred for up to two weeks.",
    panel2015("abstract"),
  ),
  rule(
    "monitoring-early",
    {
      ...adult,
      when: { criticallyIll: ["yes"], purpose: ["monitoring", "access only"], band: ["short", "middle"] },
      ratings: { "non-tunnelled central line": "first choice", PICC: "inappropriate" },
    },
    "For monitoring or access in critical illness a PICC is considered from day 15.",
    { ...panel2015("summary of single indications"), source: "Summary of the 2015 panel, The Hospitalist" },
  ),
  rule(
    "monitoring-late",
    {
      ...adult,
      atLeast: true,
      when: { criticallyIll: ["yes"], purpose: ["monitoring", "access only"], band: ["long", "longest"] },
      ratings: { PICC: "appropriate", "non-tunnelled central line": "inappropriate" },
    },
    "Monitoring beyond two weeks: a PICC may be considered.",
    { ...panel2015("summary of single indications"), source: "Summary of the 2015 panel, The Hospitalist" },
  ),
  rule(
    "samples-often",
    {
      ...adult,
      when: { sampling: ["often"], route: ["peripheral"], band: ["middle"], criticallyIll: ["no"] },
      ratings: { midline: "first choice", PICC: "appropriate", "ultrasound-guided long cannula": "appropriate" },
    },
    "Blood at least every eight hours for six days or more: a PICC is appropriate, a midline first.",
    { ...panel2015("summary of single indications"), source: "Summary of the 2015 panel, The Hospitalist" },
  ),
  rule(
    "samples-seldom",
    {
      ...adult,
      when: { purpose: ["sampling only"], sampling: ["none", "seldom"], difficultVeins: ["no"] },
      ratings: { ...arms, "short peripheral cannula": "first choice" },
    },
    "Rare samples from good veins are no reason for a line.",
    panel2015Recalled("single indications"),
  ),
  rule(
    "cancer-vesicant",
    {
      ...adult,
      atLeast: true,
      when: { cancer: ["solid", "blood"], vesicant: ["yes"] },
      ratings: { PICC: "appropriate" },
    },
    "Vesicants against cancer: a PICC is appropriate whatever the duration.",
    panel2015("abstract"),
  ),
  rule(
    "cancer-solid-months",
    {
      ...adult,
      when: { cancer: ["solid"], urgent: ["no"], band: ["longest"] },
      ratings: { "tunnelled cuffed line": "first choice", "implanted port": "first choice", PICC: "uncertain" },
      lumens: 1,
    },
    "Solid cancer without urgency: a single-lumen tunnelled line or a port; a PICC for a short need.",
    cancerPanel2025("abstract and snapshot"),
  ),
  rule(
    "cancer-blood-urgent",
    {
      ...adult,
      when: { cancer: ["blood"], urgent: ["yes"] },
      ratings: { PICC: "first choice", "tunnelled cuffed line": "first choice", "implanted port": "inappropriate" },
      lumens: 2,
    },
    "Urgent blood cancer: a double-lumen PICC or a tunnelled line, no port.",
    cancerPanel2025("abstract and snapshot"),
  ),
  rule(
    "cycles-short",
    {
      ...adult,
      when: { cycles: ["under 3 months"], route: ["peripheral"] },
      ratings: { "short peripheral cannula": "first choice", PICC: "uncertain" },
    },
    "A few cycles of a drug the vein tolerates: a cannula for each.",
    panel2015Recalled("chemotherapy"),
  ),
  rule(
    "cycles-long",
    {
      ...adult,
      atLeast: true,
      when: { cycles: ["3 to 6 months", "6 months or more"], route: ["peripheral"] },
      ratings: { PICC: "appropriate", "tunnelled cuffed line": "appropriate" },
    },
    "Cycles over three months: a PICC or a tunnelled line.",
    panel2015Recalled("chemotherapy"),
  ),
  rule(
    "cycles-port",
    {
      ...adult,
      atLeast: true,
      when: { cycles: ["6 months or more"] },
      ratings: { "implanted port": "appropriate" },
    },
    "From six months of cycles a port is appropriate.",
    panel2015Recalled("chemotherapy"),
  ),
  rule(
    "outside-hospital",
    {
      ...adult,
      when: { setting: ["home", "nursing home"], route: ["peripheral"], band: ["short", "middle"] },
      ratings: { midline: "first choice", PICC: "inappropriate" },
    },
    "Outside the hospital a midline to two weeks, a PICC from the third.",
    panel2015Recalled("nursing homes"),
  ),
  rule(
    "life-long-many",
    {
      ...adult,
      when: { admissions: ["many"], band: ["long", "longest"] },
      ratings: { "tunnelled cuffed line": "first choice" },
    },
    "A life-long need with six admissions a year or more: a tunnelled line.",
    panel2015Recalled("life-long need"),
  ),
  rule(
    "end-of-life",
    {
      ...adult,
      atLeast: true,
      when: { endOfLife: ["yes"] },
      ratings: { PICC: "appropriate" },
    },
    "At the end of life comfort decides; a PICC is acceptable.",
    panel2015Recalled("end of life"),
  ),
  rule(
    "pregnancy",
    {
      ...adult,
      when: { pregnancy: ["yes"] },
      ratings: { PICC: "uncertain", "tunnelled PICC": "uncertain" },
    },
    "In pregnancy PICCs were treated for infection or clot in two of three women of one series.",
    {
      source: "Holmgren C and others 2008, Am J Obstet Gynecol 198:56.e1; Cape AV and others 2014, JPEN 38:595",
      place: "abstracts",
      howKnown: "published",
    },
  ),
  rule(
    "kidney-assess",
    {
      groups: ["adult", "child"],
      layer: "situation",
      when: { kidney: ["assess"] },
      ratings: { PICC: "uncertain", "tunnelled PICC": "uncertain" },
    },
    "Below the first kidney limit arm veins are looked at with the kidney team first.",
    {
      source: "Hoggard J and others 2008, Semin Dial 21:186, position of two societies on veins in kidney disease",
      place: "guideline summary",
      howKnown: "from memory",
    },
  ),
  rule(
    "one-arm-only",
    {
      groups: ["adult", "child"],
      layer: "situation",
      when: { armBars: ["one arm"], criticallyIll: ["yes"], route: ["central"], band: ["short", "middle"] },
      ratings: { "non-tunnelled central line": "first choice", PICC: "uncertain" },
    },
    "With one arm left and a short need, the arm is spared.",
    trade,
  ),
];
