import { commonPractice, fromMemory, published, row } from "./row.ts";

/** Reasons against an arm. The value is how heavily the reason weighs: "bar" stops, "strong" asks, "weak" notes. */
export const armBarRows = {
  "arm-bar.dialysis-access": row(
    "bar",
    "",
    "Fistula or graft for dialysis in this arm",
    fromMemory("vascular access guidelines"),
  ),
  "arm-bar.future-dialysis": row(
    "bar",
    "",
    "Dialysis may come and the kidney team has not agreed",
    published(
      "National Kidney Foundation 2006, vascular access guideline 1.2; replaced in 2019, the newer text not read",
    ),
  ),
  "arm-bar.thrombosis": row(
    "bar",
    "",
    "Clot in this arm's vein or above it",
    fromMemory("guidelines on central lines and arm clots"),
  ),
  "arm-bar.infection": row("bar", "", "Infection, burn, wound or radiation at the site", commonPractice),
  "arm-bar.past-thrombosis": row("strong", "", "Earlier clot in this arm, recovered", commonPractice),
  "arm-bar.lymph-nodes": row(
    "strong",
    "",
    "Lymphoedema, armpit dissection or radiotherapy on this side",
    fromMemory("infusion standards 2021, lowest level of evidence"),
  ),
  "arm-bar.sentinel-node": row("weak", "", "Sentinel-node biopsy only, on this side", commonPractice),
  "arm-bar.pacemaker": row(
    "strong",
    "",
    "Pacemaker or defibrillator leads on this side",
    fromMemory("reviews of transvenous leads and arm access"),
  ),
  "arm-bar.fracture": row("strong", "", "Fracture, plate, cast, contracture or recent flap", commonPractice),
  "arm-bar.weakness": row("weak", "", "Weak or paralysed arm", commonPractice),
  "arm-bar.crutches": row("weak", "", "Bears weight on crutches or a wheelchair with this arm", commonPractice),
  "arm-bar.narrowed-cava": row("strong", "", "Known narrowing of the upper cava or a left-sided cava", commonPractice),
} as const;
