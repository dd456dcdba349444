import { choice, choices, count, date, name, number, reference, text, yesNo } from "../field/make-field.ts";
import { ARMS, VEINS } from "../line/line-words.ts";

/** What can happen between a ward's call and a line in the arm. */
export const referralEvents = {
  ReferralReceived: {
    patient: reference("must"),
    fromWard: text("must"),
    calledBy: name(),
    drugs: text("must"),
    daysLikely: number("d", 0, 1000, "must"),
    needBy: date(),
    diagnosisGroup: choice(
      ["infection", "solid cancer", "blood cancer", "nutrition", "kidney disease", "critical illness", "other"],
      "should",
    ),
    kidneyKnown: yesNo("must"),
    eGfr: number("mL/min/1.73 m²", 0, 200),
    onDialysis: yesNo(),
    anticoagulant: text(),
    pregnancyAsked: yesNo(),
  },
  /** Not placing a line for a good reason is a good outcome, and counts as one. */
  ReferralDecided: {
    outcome: choice(["place a PICC", "not a PICC", "wait"], "must"),
    instead: choice(
      [
        "midline",
        "short peripheral cannula",
        "long peripheral cannula",
        "tunnelled central catheter",
        "implanted port",
        "other central catheter",
        "by mouth",
        "no device",
      ],
      "should",
    ),
    why: text("must"),
    decidedBy: name("must"),
  },
  /** The plan a person agreed to, copied whole: each value stays "from plan" until it is measured in the room. */
  PlanAgreed: {
    plan: reference(),
    arm: choice(ARMS, "must"),
    vein: choice(VEINS, "must"),
    veinEntryCm: number("cm", 0, 40),
    skinExitCm: number("cm", 0, 40),
    tunnelCm: number("cm", 0, 20, "may"),
    armLengthCm: number("cm", 3, 45),
    veinDiameterMm: number("mm", 0.5, 15),
    catheter: text(),
    french: number("Fr", 1, 9),
    lumens: count(1, 4),
    insideCm: number("cm", 5, 70),
    outsideCm: number("cm", 0, 30),
    agreedBy: name("must"),
  },
  ConsentTaken: {
    by: name("must"),
    from: choice(["patient", "parent or guardian", "other who may consent"], "must"),
    language: text("must"),
    interpreter: yesNo(),
    repeatedBack: yesNo(),
  },
  /** Spoken before the needle; every answer is given, none is assumed. */
  TimeOutDone: {
    readBy: name("must"),
    twoIdentifiers: yesNo("must"),
    arm: choice(ARMS, "must"),
    vein: choice(VEINS, "must"),
    sizeAndLumensAgree: yesNo("must"),
    lotAndExpirySeen: yesNo("must"),
    allergyAsked: yesNo("must"),
    barriers: choices(["hands", "cap", "mask", "gown", "gloves", "full drape", "skin dry"], "must"),
  },
} as const;
