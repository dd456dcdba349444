import {
  isOffered,
  type DayFlip,
  type Device,
  type DeviceAnswer,
  type DeviceFlip,
  type DeviceQuestion,
  type FactName,
  type RankedDevice,
  type ReferralAnswer,
} from "../../core/device-choice/index.ts";
import { isMissing } from "../../core/missing/index.ts";

/** A device as a sentence names it, with its article. */
const deviceWithArticle: Readonly<Record<Device, string>> = {
  none: "no line",
  "short peripheral cannula": "a short cannula",
  "ultrasound-guided long cannula": "a long cannula by ultrasound",
  midline: "a midline",
  PICC: "a PICC",
  "tunnelled PICC": "a tunnelled PICC",
  "non-tunnelled central line": "a short-term central line",
  "small-bore tunnelled jugular line": "a small tunnelled line in the neck",
  "tunnelled cuffed line": "a tunnelled cuffed line",
  "implanted port": "an implanted port",
};

/** One device, or several that stand level, as a sentence names them. */
export function deviceNames(devices: readonly Device[]): string {
  const names = devices.map((device) => deviceWithArticle[device]);
  const last = names.pop();
  if (last === undefined) return "nothing these rules can offer";
  return names.length === 0 ? last : `${names.join(", ")} or ${last}`;
}

/** The question for each fact nobody has answered, one line each. */
export const factQuestion: Readonly<Record<FactName, string>> = {
  band: "For how many days is it needed?",
  route: "May each drug run in a small vein? Ask pharmacy.",
  vesicant: "Is any drug a vesicant?",
  againstCancer: "Is any drug against cancer?",
  nutrition: "Is nutrition given?",
  criticallyIll: "Is the patient critically ill?",
  setting: "Where will the line be used: ward, intensive care, home, nursing home?",
  cancer: "Is there a cancer, solid or of the blood?",
  urgent: "Must treatment start at once?",
  cycles: "Is it given in cycles, and for how many months?",
  kidney: "What is the creatinine, and is there dialysis?",
  pregnancy: "Is the patient pregnant?",
  armBars: "Is there a reason against either arm?",
  sampling: "How often is blood drawn?",
  difficultVeins: "Are the veins hard to find?",
  carer: "Who will flush and dress it?",
  oral: "Could the drug be swallowed?",
  endOfLife: "Is this care at the end of life?",
  purpose: "What is the line for?",
  admissions: "How many admissions a year?",
};

const factLabel: Readonly<Record<FactName, string>> = {
  band: "days",
  route: "vein the drugs need",
  vesicant: "vesicant",
  againstCancer: "drug against cancer",
  nutrition: "nutrition",
  criticallyIll: "critically ill",
  setting: "place",
  cancer: "cancer",
  urgent: "urgent",
  cycles: "cycles",
  kidney: "kidney",
  pregnancy: "pregnant",
  armBars: "arms barred",
  sampling: "blood samples",
  difficultVeins: "veins hard to find",
  carer: "who flushes it",
  oral: "by mouth",
  endOfLife: "end of life",
  purpose: "purpose",
  admissions: "admissions a year",
};

const questionSentence: Readonly<Record<DeviceQuestion["question"], string>> = {
  age: "How old is the patient? Without the age no rule applies.",
  days: "For how many days is it needed: least, likely, most?",
  infusates: "What will be given through it?",
  "days out of order": "Please give least, likely and most days in that order.",
  preterm: "Was this child born before term, and how old is it from term?",
  purpose: "Nothing is to be given through it. What is it for?",
};

/** The answer in one sentence: what instead, or what is still to ask, or a PICC. */
export function deviceSentence(answer: DeviceAnswer | DeviceQuestion): string {
  if (answer.outcome === "ask") return questionSentence[answer.question];
  if (answer.outcome === "none offered") return "Nothing these rules can offer. Decide together with the team.";
  if (answer.outcome === "not excluded") return "PICC not excluded. Still to ask before it is chosen.";
  if (answer.outcome === "team decides")
    return `The team decides: ${deviceNames(answer.first.map(({ device }) => device))}. No rule settles it.`;
  const name = deviceNames(answer.first.map(({ device }) => device));
  return answer.outcome === "instead" ? `Not a PICC: ${name}.` : `${name[0]?.toUpperCase()}${name.slice(1)}.`;
}

/** Where the answer changes inside the range of days, one line for each part of it. */
export function rangeLines(answer: DeviceAnswer): readonly string[] {
  if (answer.segments.length < 2) return [];
  const parts = answer.segments.map(
    ({ fromDay, toDay, first }) =>
      `${fromDay === toDay ? `${fromDay}` : `${fromDay} to ${toDay}`} days: ${deviceNames(first)}.`,
  );
  return [...parts, "Ask the team which is real."];
}

export const deviceFlipSentence = ({ fact, value, first }: DeviceFlip): string =>
  `${factLabel[fact]}, if "${value}": ${deviceNames(first)}.`;

export const dayFlipSentence = ({ day, first }: DayFlip): string => `${day} days: ${deviceNames(first)}.`;

/** A rated device with why, for the list of all. `why` comes from the policy row of the deciding rule. */
export const ratedSentence = ({ device, rating }: RankedDevice, why: string): string =>
  `${deviceWithArticle[device]}, ${rating}: ${why}`;

/** Beside something else the reason is why not a PICC, where a rule rates it; else why this. */
export const reasonRule = ({ outcome, picc, first }: DeviceAnswer): string | undefined =>
  outcome === "instead" && picc && !isOffered(picc.rating) ? picc.rules[0] : first[0]?.rules[0];

/** Two polite lines the ward can copy: what, and why; and what to tell us if it is otherwise. */
export function wardLines(answer: ReferralAnswer, why: string): readonly [string, string] | undefined {
  const { device, need } = answer;
  if (device.outcome === "ask" || device.outcome === "PICC" || isMissing(need.days)) return undefined;
  const days = need.days.likely;
  const thanks = "Thank you for the referral.";
  if (device.outcome === "not excluded")
    return [
      `${thanks} Before we choose a line we need to know:`,
      device.stillToAsk.map((fact) => factQuestion[fact]).join(" "),
    ];
  if (device.outcome === "none offered" || device.outcome === "team decides")
    return [
      `${thanks} For ${days} days our rules do not settle it. ${why}`,
      "Please call us, so that we can look at it together.",
    ];
  const names = device.first.map((one) => one.device);
  const instead = names.includes("none") ? "no line: a day unit, tablets or a stay" : deviceNames(names);
  return [
    `${thanks} For ${days} days we suggest ${instead}, not a PICC. ${why}`,
    "If the days, the drugs or the kidney value are different, please call us again.",
  ];
}

/** What the arms are kept for: a note to print and hang at the bed. */
export const armProtectionNote = [
  "KEEP BOTH ARMS. No PICC, no midline, no cannula above the hand.",
  "Never the fistula arm: no needle, no cuff. Other arm: back of the hand only.",
  "Ask the kidney team before anything else.",
] as const;

/** How long each usually stays, and what a day with it looks like. Common practice, no source; no rule reads this. */
export const usualDwell: Partial<Readonly<Record<Device, string>>> = {
  "short peripheral cannula": "Usually 3 to 4 days before it blocks.",
  "ultrasound-guided long cannula": "Usually one to two weeks.",
  midline: "Usually one to four weeks.",
  PICC: "Weeks to months, up to 18 if its label allows. Need ends it, not age.",
  "tunnelled PICC": "Weeks to months, up to 18 if its label allows. Need ends it, not age.",
  "non-tunnelled central line": "Days to two weeks, in hospital only.",
  "small-bore tunnelled jugular line": "Weeks to one or two months, with a weekly dressing.",
  "tunnelled cuffed line": "Months to years.",
  "implanted port": "Months to years; nothing shows between uses.",
};

export const dailyLife: Partial<Readonly<Record<Device, string>>> = {
  "short peripheral cannula": "The hand is in the way; shower with a cover.",
  "ultrasound-guided long cannula": "The arm bends with care; shower with a cover.",
  midline: "Work, school and mild exercise; shower with a cover.",
  PICC: "Work, school and mild exercise; shower with a cover; no lifting over 5 kg, no swimming.",
  "tunnelled PICC": "Work, school and mild exercise; shower with a cover; no lifting over 5 kg, no swimming.",
  "non-tunnelled central line": "Stays in hospital; both arms free.",
  "small-bore tunnelled jugular line": "Work and school; both arms free; shower with a cover.",
  "tunnelled cuffed line": "Work, school and exercise; both arms free; shower with a cover.",
  "implanted port": "Nearly everything, swimming too, while no needle is in.",
};

/** What is published of the alternative beside the PICC; where it points both ways both are shown. */
export const evidenceBeside: Partial<Readonly<Record<Device, readonly string[]>>> = {
  midline: [
    "Registry, 10,863 patients: blood infection 1.6 % PICC, 0.4 % midline; blocked 7.0 and 2.1 %; clots alike (Swaminathan 2022).",
    "Randomised, 304 adults: infection alike; all complications 2.37 times as frequent with midlines (JAMA Netw Open 2024; author from memory).",
  ],
  "non-tunnelled central line": ["No comparison by rate was read. The skilled hand decides."],
  "tunnelled PICC": [
    "Randomised, 129 people on chemotherapy: dislodged 3.1 %, 15.4 % untunnelled; clot 3.1 and 15.4 % (Xiao 2021, one centre).",
  ],
};

/** Beside a plan that may not leave on paper yet. */
export const heldSentence =
  "No plan to act on yet. It prints once a PICC is the answer and every question is answered.";

/** Where a mark would stand, while the plan may not be acted on. */
export const heldMarkSentence = "No place for the needle is named or drawn. None may be used while this stands.";
