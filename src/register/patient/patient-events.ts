import { choice, count, date, name, number, reference, text, yesNo } from "../field/make-field.ts";

const details = {
  number: text("must"),
  name: name("must"),
  bornOn: date("must"),
  sex: choice(["female", "male"]),
  heightCm: number("cm", 20, 230),
  weightKg: number("kg", 0.3, 350),
  eGfr: number("mL/min/1.73 m²", 0, 200),
  onDialysis: yesNo(),
  language: text("may"),
  carerCanFlush: yesNo("may"),
  phone: text(),
  ward: text(),
  home: text("may"),
} as const;

/** What can happen to the record of a person. */
export const patientEvents = {
  PatientRegistered: details,
  PatientDetailsTaken: details,
  ArmBarred: {
    arm: choice(["right", "left"], "must"),
    why: choice(
      [
        "fistula or graft",
        "fistula planned",
        "lymph nodes removed",
        "pacing lead",
        "old clot",
        "fracture",
        "burn",
        "other",
      ],
      "must",
    ),
    words: text(),
  },
  ArmBarLifted: { arm: choice(["right", "left"], "must"), words: text("must") },
  /** Two records turned out to be one person; both keep their history and the merge can be undone. */
  PatientsMerged: { other: reference("must"), why: text("must"), secondName: name("must") },
  MergeUndone: { other: reference("must"), why: text("must"), secondName: name("must") },
} as const;

/** What a service says about itself. */
export const serviceEvents = {
  /** A named person ran the practice cases and the golden numbers at this place. */
  SiteValidated: {
    by: name("must"),
    casesRun: count(0, 500, "must"),
    casesAgreed: count(0, 500, "must"),
    words: text(),
  },
  PolicyRowSet: { row: text("must"), value: text("must"), owner: name("must"), why: text() },
  OverridesReviewed: { month: text("must"), by: name("must"), count: count(0, 10_000, "must"), words: text() },
} as const;
