import { commonPractice, fromMemory, local, published, row } from "./row.ts";

/** What a film is read by, and where a tip is wanted. */
export const tipRows = {
  "tip.series": row(
    ["Mahlon 2007"],
    "",
    "Published distances from carina to junction whose central values count",
    published("Mahlon and Yoon 2007, J Vasc Interv Radiol 18:1106", "abstract: 4.03 cm, SD 1.36"),
  ),
  "tip.adult-from": row(
    18,
    "years",
    "Age from which the adult distances to the junction count",
    published("Hirschl 2020, Pediatr Surg Int", "bands up to 18 years"),
    [12, 21],
  ),
  "tip.unit": row(
    2.14,
    "cm",
    "One vertebral body and disc of an adult, where the film carries no scale",
    published("Song 2015, Br J Anaesth 115:252", "21.4 mm by CT, 22.6 by film"),
    [1.5, 3],
  ),
  "tip.arm-away-mean": row(
    2.1,
    "cm",
    "How much deeper a tip goes, on average, when the arm comes to the side",
    published("Forauer 2000, J Vasc Interv Radiol", "43 of 53 went deeper"),
    [0, 6],
  ),
  "tip.arm-away-least": row(
    0.2,
    "cm",
    "The least it went deeper",
    published("Forauer 2000, J Vasc Interv Radiol"),
    [0, 6],
  ),
  "tip.arm-away-most": row(
    5.3,
    "cm",
    "The most it went deeper",
    published("Forauer 2000, J Vasc Interv Radiol"),
    [0, 9],
  ),
  "tip.film-over-reads": row(
    1,
    "cm",
    "How much more a film shows between carina and tip than CT does",
    published("Dulce 2014, Br J Anaesth 112:265"),
    [0, 3],
  ),
  "tip.magnification-least": row(0.9, "times", "A smaller magnification is asked about", commonPractice, [0.5, 1]),
  "tip.magnification-most": row(1.3, "times", "A greater magnification is asked about", commonPractice, [1, 2]),
  "tip.cava-length": row(
    7.07,
    "cm",
    "Length of the superior cava, for an estimate from the outside length",
    published("Mahlon and Yoon 2007, J Vasc Interv Radiol 18:1106"),
    [4, 12],
  ),
} as const;

/** When a release for use ends, is held or is narrowed. The steps are habits and are the hospital's to set. */
export const releaseRows = {
  "release.noise": row(0.5, "cm", "A change of the outside length up to this is noise", commonPractice, [0, 2]),
  "release.out": row(2, "cm", "Out by this much or more ends the release", commonPractice, [0.5, 5]),
  "release.known-hours": row(
    4,
    "h",
    "Without contact for longer, a release reads not confirmed",
    commonPractice,
    [0.5, 72],
  ),
  "release.not-through-held": row(
    ["vesicant", "parenteral nutrition"],
    "",
    "Not given while a release is held or restricted",
    fromMemory("infusion nursing standards"),
  ),
  "release.ends-on-symptoms": row(
    [
      "arm swelling",
      "arm or shoulder pain",
      "chest pain",
      "ear sound on flushing",
      "palpitations",
      "leak",
      "fever",
      "chills",
    ],
    "",
    "Symptoms of which any one ends the release",
    commonPractice,
  ),
  "release.central-places": row(
    ["lower third of the cava", "cavo-atrial junction", "right atrium"],
    "",
    "Places of the tip that count as central",
    fromMemory("infusion nursing standards"),
  ),
  "release.film-after-correction": row(
    true,
    "",
    "A tip that was moved is read again before the line is released",
    commonPractice,
  ),
  "release.override-roles": row(
    ["inserter", "lead"],
    "",
    "Roles that may pass the stop of a tip outside the good places",
    local,
  ),
  "release.silent-on-tip": row(
    ["fever", "chills"],
    "",
    "Signs that end a release and say nothing of the tip: settled without a new tip reading",
    commonPractice,
  ),
  "release.flush-after-move": row(
    true,
    "",
    "A hard or failed flush while the outside length stands changed ends the release until the tip is read",
    commonPractice,
  ),
} as const;
