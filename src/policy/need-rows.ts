import { commonPractice, fromMemory, local, published, row } from "./row.ts";

/** Limits of the question before the arm: which device, which infusate, the kidney, bleeding and cultures. */
export const needRows = {
  "device.adult-band-ends": row(
    [5, 14, 30],
    "days",
    "Last day of the short, middle and long band, adults",
    published("Chopra V and others 2015, Ann Intern Med 163(6 suppl):S1", "abstract"),
    [1, 365],
  ),
  "device.child-band-ends": row(
    [7, 14],
    "days",
    "Last day of the short and the middle band, children and newborns",
    published(
      "Ullman AJ and others 2020, Pediatrics 145(suppl 3):S269",
      "companion paper S298: under 8, 8 to 14, over 14",
    ),
    [1, 365],
  ),
  "device.often-hours": row(
    8,
    "hours",
    "Blood drawn at least every so many hours is drawn often",
    published("Summary of the 2015 panel, The Hospitalist", "single indications"),
    [1, 24],
  ),
  "device.few-admissions": row(
    5,
    "a year",
    "More admissions than this are many, for a life-long need",
    fromMemory("Chopra V and others 2015, Ann Intern Med 163(6 suppl):S1", "life-long need"),
    [1, 50],
  ),
  "device.pregnancy-ages": row(
    [12, 55],
    "years",
    "Ages between which pregnancy is asked before a PICC",
    local,
    [8, 65],
  ),
  "chart.short-run": row(
    60,
    "minutes",
    "A drug that runs no longer may be offered a cannula of its own",
    local,
    [5, 480],
  ),
  "infusate.osmolarity": {
    ...row(
      900,
      "mOsm/L",
      "Highest osmolarity for a peripheral vein, any solution",
      published("Infusion therapy standards of practice 2016, midlines", "quoted summary"),
      [300, 1500],
    ),
    others: ["600: the same standards, edition of 2011", "600: review, Semin Pediatr Surg 2021"],
  },
  "infusate.nutrition-osmolarity-adult": {
    ...row(
      900,
      "mOsm/L",
      "Highest osmolarity of nutrition for an adult's peripheral vein",
      published("Boullata JI and others 2014, JPEN 38:334", "weak; no proven limit"),
      [300, 1500],
    ),
    others: ["850: ESPEN 2009, older adults, from memory"],
  },
  "infusate.nutrition-osmolarity-child": row(
    900,
    "mOsm/L",
    "Highest osmolarity of nutrition for a child's peripheral vein",
    fromMemory("European paediatric nutrition guideline 2018"),
    [300, 1500],
  ),
  "infusate.ph": {
    ...row(
      [5, 9],
      "pH",
      "Below the first or above the second the pH is asked about",
      published("Oncology nursing standards 2017, access devices", "midlines"),
      [2, 12],
    ),
    others: [
      "4 to 9: Manrique-Rodriguez S and others 2021, Drugs R D 21",
      "withdrawn as a lone criterion: infusion standards 2016, from memory",
    ],
  },
  "kidney.bar-below": {
    ...row(
      45,
      "mL/min/1.73 m2",
      "Below this filtration the arm veins are kept for dialysis",
      published("Chopra V and others 2022, BMJ Qual Saf 31:23, by the criteria of 2015", "abstract"),
      [15, 90],
    ),
    others: [
      "30: National Kidney Foundation 2006, guideline 1.2",
      "60: Choosing Wisely, nephrology (stage 3 to 5)",
      "stages 3 to 5 expected to need access: National Kidney Foundation 2019, from memory",
    ],
  },
  "kidney.assess-below": row(
    60,
    "mL/min/1.73 m2",
    "Below this filtration the arm veins are assessed with the kidney team first",
    published("Hoggard J and others 2008, Semin Dial 21:186", "summary in a guideline archive"),
    [30, 120],
  ),
  "kidney.plausible-most": row(
    200,
    "mL/min/1.73 m2",
    "A filtration above this is asked about: another unit?",
    local,
    [120, 400],
  ),
  "chart.largest-shift": row(
    0.25,
    "of the time between its doses",
    "How far a dose may move at most: the doses keep their order and their distance",
    local,
    [0.01, 0.45],
  ),
  "expiry.creatinine-acute": row(
    7,
    "days",
    "In acute illness a creatinine older than this is measured again",
    local,
    [1, 60],
  ),
  "expiry.creatinine-steady": row(90, "days", "A creatinine older than this is measured again", local, [7, 400]),
  "bleeding.inr-most": row(
    3,
    "",
    "An INR above this is asked about before a PICC",
    published("Patel IJ and others 2019, J Vasc Interv Radiol 30:1168", "low-risk procedures"),
    [1, 6],
  ),
  "bleeding.platelets-least": {
    ...row(
      20,
      "10^9/L",
      "Platelets below this are asked about before a PICC",
      published("Patel IJ and others 2019, J Vasc Interv Radiol 30:1168", "low-risk procedures"),
      [5, 100],
    ),
    others: ["10: transfusion guideline 2025, compressible sites, from memory"],
  },
  "bleeding.platelets-doubt": row(
    50,
    "10^9/L",
    "Below this the trial that disagrees is shown",
    published("van Baarle FLF and others 2023, N Engl J Med 388:1956", "platelets 10 to 50: bleeding 4.8 and 11.9 %"),
    [10, 100],
  ),
  "culture.wait": row(
    48,
    "hours",
    "Usual wait after the first negative culture; no trial sets it",
    commonPractice,
    [0, 168],
  ),
} as const;
