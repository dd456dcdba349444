import type { CivilDate, Instant } from "../../core/calendar/index.ts";
import type { ReleaseState } from "../../core/release/index.ts";
import { sayDay, sayMoment } from "./moment.ts";
import { amount } from "./number.ts";

/** Title and caption of every paper of a line, in the order of their plates. */
export const paperTitles = {
  "record form": ["Record form", "Placing a line, in the order and the numbers of the screen"],
  "film slip": ["Film slip", "Three numbers, read aloud and read back before anything moves"],
  "bed sign": ["Bed sign", "What this line may carry, as known when this was printed"],
  "patient card": ["Line card", "to carry, and to show wherever the line is used"],
  "picture card": ["Picture card", "Look in this order, every day. If you see one of these, call."],
  "home sheet": ["At home with the line", "How it should look, and what to do when it does not"],
  "culture card": ["Culture card", "Four times and two volumes, for two bottles that are to be compared"],
  "removal slip": ["Removal slip", "What went in is held against what came out"],
  "recall letter": ["Recall letter", "A letter to hand over, and the words for the call"],
  "arm-protection note": ["Keep the arm veins", "For every ward, every shift, both arms"],
  handover: ["Handover", "Every line of one owner, and what is due next"],
  "recall list": ["People to reach", "Everyone a lot reached, those of unknown end included"],
} as const satisfies Readonly<Record<string, readonly [title: string, caption: string]>>;

export const armNotSettled = "ARM NOT SETTLED";
export const armNotKnown = "ARM NOT KNOWN";
export const bothArms = "BOTH ARMS";
export const paperNameMissing = "Name missing";
export const toBeWritten = {
  name: "Name ______________________",
  identifiers: "no. ______________ · born ______________",
} as const;
export const sayIdentifiers = (number: string, bornOn: CivilDate | undefined): string =>
  `no. ${number || "missing"} · born ${bornOn ? sayDay(bornOn).slice(4) : "not known"}`;
export const paperPractice = "Practice, invented";
export const sayPage = (at: number, of: number): string => `page ${at} of ${of}`;

/** The foot of every paper: what it was printed from, and that it is a copy. */
export const paperFoot = (issue: number | undefined, policyVersion: string, printedAt: Instant): string =>
  `${issue === undefined ? "" : `Issue ${issue}. `}Printed ${sayMoment(printedAt)}. Policy ${policyVersion}. Copy: check the screen for a newer one.`;

export const fromPlanNote = "from the plan, not confirmed";
export const importedNote = "imported";
export const notOnCardNote = "read it from the catheter's own label";

/** The four kinds of missing over their columns of boxes. */
export const missingHeads = ["not known", "not asked", "not measured", "refused"] as const;

export const recordFormWords = {
  how: "Tick, or write on the rule. Leave nothing empty: tick why it is missing.",
  happened: "Happened on and at",
  sign: ["Initials and role", "Happened on, at", "Typed in on, at, by"],
  number: "digits",
  day: "day month year, month as a word",
} as const;

export const filmWords = {
  withdraw: "Withdraw by",
  outside: "Outside length will be",
  inside: "Inside length will be",
  none: "no number",
  notRead: "No film is read on this record. Read it first, then print again.",
  past: "This film's numbers are of another day. Read a new film.",
  readBackHead: "Read back by the one at the arm, written as heard",
  readBack: ["Withdraw by, cm", "Outside will be, cm", "Inside will be, cm"],
  sign: ["Time", "Initials, reads aloud", "Initials, at the arm"],
  after: "Then measure again and write both lengths on the record.",
  nothing: "Nothing is ever pushed in.",
} as const;

export const bedWords = {
  for: "Released for",
  notFor: "Not for",
  none: "nothing",
  outside: "Outside should be",
  dressing: "Next dressing",
  visit: "Next visit",
  call: "If in doubt, call",
  owner: "Answers for it",
  differs: "If the length differs, or an arm swells, hurts or leaks: do not use. Call.",
  measure: "Measure from the skin to the hub before each use.",
  known: (at: Instant, hours: number): string =>
    `As known at ${sayMoment(at)}. After ${hours} h, check the screen or call.`,
} as const;

export const skinWords = {
  skin: "skin",
  inside: (words: string): string => `inside ${words}`,
  outside: (words: string): string => `outside ${words}`,
  sentence: (outside: string, inside: string): string =>
    `The line at the skin: ${outside} outside to the hub, ${inside} inside.`,
  trueSize: "The outside part is drawn at true size.",
  halfSize: "The outside part is drawn at half size.",
} as const;

export const cardWords = {
  device: "Device",
  deviceWords: (french: string, lumens: string, catheter: string): string =>
    `PICC, ${french}, ${lumens}${catheter ? ` (${catheter})` : ""}`,
  lumens: (count: string): string =>
    count === "1" ? "1 lumen" : /^\d$/.test(count) ? `${count} lumens` : `lumens ${count}`,
  came: { placed: "Placed", found: "Found in place" },
  arm: "Arm",
  vein: "Vein, skin exit",
  exit: (cm: string): string => `exit ${cm} above the elbow`,
  inside: "Inside",
  outside: "Outside",
  of: (words: string, on: string): string => `${words}, ${on}`,
  tip: "Tip",
  lot: "Lot",
  owner: "Answers for it",
  /** Whether the line may be used as of the print; whoever holds the card rings before trusting it. */
  state: (state: ReleaseState, uses: readonly string[]): string =>
    ({
      "may be used": `At printing: may be used for ${uses.join(", ")}.`,
      restricted: `At printing: only for ${uses.join(", ") || "nothing"}. Call first.`,
      held: `At printing: held. Only for ${uses.join(", ") || "nothing"}. Call first.`,
      ended: "At printing: DO NOT USE.",
      blocked: "At printing: BLOCKED, for nothing. Call first.",
      "not released": "At printing: not released. DO NOT USE.",
      "not confirmed": "At printing: not confirmed. DO NOT USE before calling.",
    })[state],
  ring: (number: string, who: string): string => `Call before the first use: ${number}${who ? ` (${who})` : ""}.`,
  ringMissing: "No phone is written. Ask for one before leaving: ______________________",
  replaces: (issue: number): string =>
    issue > 1 ? `Card ${issue}. It replaces card ${issue - 1}: tear that one up.` : "Card 1. The first of this line.",
  danger: "Call at once",
  block: "For another hospital: these letters hold the line. Read them with: veinwright card --read. No I, O, 0 or 1.",
} as const;

export const phoneWords = {
  house: "the hospital",
  invented: "0555 0100 (invented)",
  missing: "not known",
} as const;

/** What to look for, in the order of the pictures; one list for the words and the drawings. */
export const dangerSigns = {
  arm: ["This arm", "The line is here. Look at it every day."],
  wet: ["Dressing wet or loose", "Do not peel it. Call today."],
  blood: ["Blood in the tube", "Do not flush by force. Call today."],
  thick: ["Arm thicker, or it hurts", "Call today. Do not wait for the next visit."],
  shiver: ["Fever or shivering", "Call at once, day or night."],
  phone: ["Call", "Say which arm, and the number of your card."],
} as const;
export const thickArmWords = { before: "before", now: "now" } as const;
export const pictureSentences = {
  both: "A person from behind, both arms hatched: both are kept.",
  arm: (words: string): string => `A person from behind. The ${words} is hatched and has the line.`,
  wet: "A dressing on an arm. Its lower edge is wet and one corner is loose; drops fall.",
  blood: "The tube outside the arm. The part near the arm is filled with blood.",
  thick: "One arm above, with a tape. The same arm below, thicker.",
  shiver: "A person under a blanket shivers. A thermometer stands beside.",
  phone: "A telephone.",
  phoneMissing: "phone not known",
} as const;

export const centimetres = (value: number): string => amount(value, "cm");
