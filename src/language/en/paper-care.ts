import type { CivilDate } from "../../core/calendar/index.ts";
import { sayDay } from "./moment.ts";
import { amount, armWords } from "./number.ts";

/** Words of the papers that go home, to the laboratory and to the people of a lot. */
export const homeWords = {
  /** Whether the line may be used, first of all; nothing is said while it may. */
  state: {
    "may be used": "",
    restricted: "Call before this line is used.",
    held: "Call before this line is used.",
    ended: "Do not use this line. Call today.",
    "not released": "Do not use this line. Call today.",
    "not confirmed": "Call before this line is used.",
    blocked: "Do not use this line. Call today.",
  },
  outside: "Outside length",
  circumference: "Arm, around",
  place: (cm: string): string => `${cm} above the crease of the elbow`,
  placeMissing: "place not written: mark it first",
  baseline: "when the tip was last read",
  baselinePlaced: "when the line was placed",
  stay: "Stay at home",
  call: "Call today",
  emergency: "Emergency, now",
  stayItems: [
    "Dressing itches a little: leave it on, tell at the next visit.",
    "Shower: cover it. Wet all the same? Call today.",
    "Sleeve or bag caught it: measure the outside length. Same? Go on.",
    "Forgot a flush: do not double it. Call in office hours.",
  ],
  callItems: (noise: string, rise: string): readonly string[] => [
    `Outside length changed by more than ${noise}. Use nothing. Never push it back.`,
    `Arm thicker by ${rise} or more, or it hurts or feels tight.`,
    "Fever, or shivering, or feeling ill after a flush.",
    "Redness, pus, wetness or blood at the skin.",
    "Dressing wet or loose.",
    "It will not flush, or blood stays in the tube.",
    "A sound in the ear, or a beating heart, on flushing.",
  ],
  emergencyItems: [
    "Short of breath, chest pain, fainting.",
    "Line cut or open: fold and hold it near the skin.",
    "Line came out and bleeds: press firmly, keep pressing.",
    "Shaking hard with fever.",
    "Face, speech or one side of the body suddenly weak.",
  ],
  own: "Measured at home",
  ownHead: ["Day", "Outside, cm", "Around the arm, cm", "Who"],
  sayCard: "Say your name, which arm, and the number of your card.",
  phone: "Call",
} as const;

export const cultureWords = {
  order: (gap: string, load: string, ratio: string): readonly string[] => [
    `Draw both within ${gap} of each other, before any antibiotic.`,
    `The same volume in both: the larger at most ${ratio} times the smaller.`,
    "Write the place on each bottle before the blood goes in.",
    `Load both into the same machine within ${load}. Write that time too.`,
  ],
  head: ["Bottle", "Drawn at", "Volume, mL", "Loaded at", "Flagged at (laboratory)"],
  line: (lumen: string): string => `LINE, lumen ${lumen}`,
  vein: "PERIPHERAL VEIN",
  antibiotics: "Antibiotics before the blood",
  yesNo: ["yes", "no"],
  fill: "____ , __ : __",
  fillMl: "____",
  labels: "Cut out and stick on the bottles",
  lumenBlank: "___",
  label: (name: string, number: string): string => `${name}, no. ${number}`,
  labelLine: "at __:__  mL ___",
  judged: "The difference of the two flag times is read by the screen, with its doubts.",
  sign: ["Drawn by, initials", "Loaded by, initials", "Who decides on the line"],
} as const;

export const removalWords = {
  inside: "Inside, on record",
  outside: "Outside, on record",
  expected: "Should come out",
  within: (cm: string): string => `within ${cm}`,
  measure: "Lay it beside a tape. Tip to hub.",
  out: "Length that came out, cm",
  whole: "Tip whole",
  complete: "Length complete",
  resistance: "Resistance",
  yesNo: ["yes", "no"],
  tip: "Tip sent to the laboratory only for a suspicion, and why",
  tipOptions: ["not sent", "sent, because:"],
  short: "Shorter, or tip not whole: the patient stays. Image now. Call.",
  never: "Never pull against resistance.",
  sign: ["Removed by, initials", "Day and time", "Second look, initials"],
  reason: "Why it comes out",
  written: "As written on the record",
} as const;

export const recallWords = {
  dear: (name: string): string => `To ${name}`,
  letter: (lot: string, placedOn: string, arm: string): readonly string[] => [
    `Your line in the ${arm} was placed on ${placedOn}. It is of lot ${lot}.`,
    "The maker has called this lot back for checking.",
    "Do not pull, cut or flush it because of this letter. Call us first.",
    "We will say whether it stays, is looked at, or is changed.",
    "Bring this letter and your line card.",
  ],
  why: (why: string): string => `Reason given for the recall: ${why}.`,
  call: (phone: string): string => `Call: ${phone}`,
  script: "Words for the call",
  scriptItems: (name: string, number: string, lot: string): readonly string[] => [
    `"May I speak to ${name}?" Ask date of birth and number ${number || "(missing)"}.`,
    '"Do you have a line in your arm? Which arm? Is it still in?"',
    '"Which number is on your line card?" An old number: send a new card.',
    `"Please read me the lot." Expected: ${lot}.`,
    '"Any fever, swelling, pain, wetness or leak?" Yes: today, by the sheet.',
    '"We will see you on ..." Say day, place and who. Ask to repeat.',
  ],
  outcome: "How the call ended",
  outcomes: ["reached", "no answer", "number wrong", "line is out", "handed on"],
  sign: ["Called by, initials", "Day and time", "Seen on, at"],
  lotMissing: "lot not written",
  listHead: ["Name, number", "Arm", "Standing", "Owner and phone", "Reached on, by"],
  standing: {
    in: "line is in",
    unknown: "END NOT KNOWN: find out",
    "handed on": "another service",
    removed: "out: write only",
    "lot missing": "lot never written: may be one",
  },
} as const;

export const protectWords = {
  eGfr: (value: string): string => `Kidney: ${value}`,
  dialysis: "On dialysis",
  because: "Why",
  barred: (arm: string, why: string): string => `${armWords(arm)} is barred: ${why}.`,
  notAsked: "Arm bars: none written. Ask before any needle.",
  may: "Blood and drips",
  mayItems: [
    "Back of the hand, the other arm first.",
    "Write each try and its place.",
    "Warm hand, smallest cannula that does.",
  ],
  never: "Never",
  neverItems: [
    "No PICC and no midline in either arm.",
    "No cannula or blood taking between wrist and shoulder.",
    "No cuff, no needle, no band on a fistula arm.",
  ],
  ask: "The kidney team decides on anything else. Call before the needle.",
} as const;

export const handoverWords = {
  head: ["Name, number", "Arm", "May it be used", "Outside", "Due next", "Place and phone", "Taken over"],
  owner: (owner: string): string => `Lines of ${owner}`,
  noOwner: "nobody: name an owner",
  due: (what: string, on: CivilDate): string => `${what}, ${sayDay(on)}`,
  nothing: "nothing due",
  out: "out",
  sign: ["Hands over, initials", "Takes over, initials", "Day and time"],
  count: (count: number): string => `${count} line${count === 1 ? "" : "s"} on this handover.`,
} as const;

export const minutes = (value: number): string => amount(value, "min", 0);
