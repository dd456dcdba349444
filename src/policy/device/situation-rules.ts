import { cancerPanel2025, panel2015, panel2015Recalled, rule } from "./rule-with-row.ts";

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
      ratings: { PICC: "appropriate" },
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
    panel2015Recalled("single indications; a PICC from six days is published"),
  ),
  rule(
    "samples-often-critical",
    {
      ...adult,
      when: { sampling: ["often"], criticallyIll: ["yes"], route: ["peripheral"], band: ["middle"] },
      ratings: { "non-tunnelled central line": "first choice", PICC: "appropriate" },
    },
    "Frequent samples in critical illness: a short-term central line first.",
    panel2015Recalled("single indications"),
  ),
  rule(
    "home-nutrition",
    {
      ...adult,
      when: { nutrition: ["yes"], setting: ["home", "nursing home"], band: ["longest"] },
      ratings: { "tunnelled cuffed line": "first choice", PICC: "appropriate" },
    },
    "Nutrition at home for months: a tunnelled line is preferred.",
    { source: "European home nutrition guidelines 2020 and 2023", place: "access devices", howKnown: "from memory" },
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
      when: { cancer: ["solid", "blood"], againstCancer: ["yes"], route: ["central"] },
      ratings: { PICC: "appropriate" },
    },
    "Irritants and vesicants against cancer: a PICC is appropriate whatever the days.",
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
    "cancer-solid-short-need",
    {
      ...adult,
      when: { cancer: ["solid"], urgent: ["no"], againstCancer: ["yes"], route: ["central"], band: ["middle", "long"] },
      ratings: { "tunnelled cuffed line": "first choice", "implanted port": "first choice", PICC: "appropriate" },
      lumens: 1,
    },
    "Solid cancer: a tunnelled line or a port whatever the days; a PICC for a short need.",
    cancerPanel2025("abstract and snapshot"),
  ),
  rule(
    "cancer-blood-urgent",
    {
      ...adult,
      when: { cancer: ["blood"], urgent: ["yes"], againstCancer: ["yes"], band: ["middle", "long", "longest"] },
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
];
