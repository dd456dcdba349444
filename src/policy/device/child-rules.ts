import { childPanel2020, rule, trade, type RuleOrigin } from "./rule-with-row.ts";

/** Children and newborns have tables of their own; an adult rule is never borrowed. */
const child = { groups: ["child"], layer: "usual" } as const;
const newborn = { groups: ["newborn"], layer: "usual" } as const;

const newbornNutrition: RuleOrigin = {
  source: "NICE guideline NG154 2020, neonatal parenteral nutrition",
  place: "venous catheters",
  howKnown: "published",
};

export const childRules = [
  rule(
    "child-short",
    {
      ...child,
      when: { route: ["peripheral"], band: ["short"] },
      ratings: { "short peripheral cannula": "first choice", midline: "appropriate", PICC: "inappropriate" },
    },
    "In a child, under eight days of a drug the vein tolerates need no PICC.",
    childPanel2020("companion paper S298, day bands"),
  ),
  rule(
    "child-middle",
    {
      ...child,
      when: { route: ["peripheral"], band: ["middle"] },
      ratings: { midline: "first choice", PICC: "uncertain" },
    },
    "In a child, from eight to fourteen days the panel could not decide on a PICC.",
    childPanel2020("companion paper S298, day bands"),
  ),
  rule(
    "child-long",
    {
      ...child,
      when: { route: ["peripheral"], band: ["long", "longest"] },
      ratings: { PICC: "appropriate" },
    },
    "In a child, over fourteen days a PICC is appropriate.",
    childPanel2020("companion paper S298, day bands"),
  ),
  rule(
    "child-central-early",
    {
      ...child,
      when: { route: ["central"], band: ["short", "middle"] },
      ratings: { PICC: "uncertain", "non-tunnelled central line": "uncertain" },
    },
    "A child's central drug for up to two weeks: no table was read for it; the children's team decides.",
    trade,
  ),
  rule(
    "child-central-late",
    {
      ...child,
      when: { route: ["central"], band: ["long", "longest"] },
      ratings: { PICC: "appropriate", "tunnelled cuffed line": "appropriate" },
    },
    "A child's central drug for longer: a PICC or a tunnelled line.",
    trade,
  ),
  rule(
    "newborn-nutrition",
    { ...newborn, when: { nutrition: ["yes"] }, ratings: { PICC: "appropriate" } },
    "A newborn's nutrition normally goes through a central catheter.",
    newbornNutrition,
  ),
  rule(
    "newborn-central",
    { ...newborn, when: { route: ["central"], nutrition: ["no"] }, ratings: { PICC: "uncertain" } },
    "A newborn's central drug: no table exists; the newborn unit decides.",
    trade,
  ),
  rule(
    "newborn-peripheral",
    {
      ...newborn,
      when: { route: ["peripheral"], band: ["short"] },
      ratings: { "short peripheral cannula": "first choice" },
    },
    "A few days of a drug the vein tolerates: a cannula.",
    trade,
  ),
];
