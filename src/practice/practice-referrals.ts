import type { ReferralFile } from "../contract/index.ts";

/** An invented referral with a trap in it, and what it teaches. */
export interface PracticeReferral {
  readonly id: string;
  readonly title: string;
  readonly teaches: string;
  readonly referral: ReferralFile;
}

/** Answers that most of the invented patients share; each case then changes what matters to it. */
const ordinary = {
  kidney: { replacement: "none", filtration: 85 },
  criticallyIll: "no",
  setting: "ward",
  cancer: "none",
  urgent: "no",
  cycles: "none",
  pregnancy: "no",
  armBars: "none",
  sampleEveryHours: 24,
  difficultVeins: "no",
  carer: "somebody",
  oral: "not possible",
  endOfLife: "no",
  purpose: "therapy",
  admissionsAYear: 1,
} as const satisfies Partial<ReferralFile>;

const adult = (value: number, sex: "female" | "male"): ReferralFile["patient"] => ({
  age: { value, unit: "years" },
  sex,
});

export const practiceReferrals: readonly PracticeReferral[] = [
  {
    id: "four-days",
    title: "PICC please, poor veins",
    teaches: "Four days of a drug the vein tolerates need no PICC.",
    referral: { ...ordinary, patient: adult(67, "male"), days: 4, infusates: ["ceftriaxone"] },
  },
  {
    id: "twelve-or-sixteen",
    title: "About two weeks, maybe more",
    teaches: "The answer turns inside the range of days: ask which is real.",
    referral: {
      ...ordinary,
      patient: adult(54, "female"),
      pregnancy: "no",
      days: { least: 12, likely: 12, most: 16 },
      infusates: ["ceftriaxone"],
    },
  },
  {
    id: "on-dialysis",
    title: "Six weeks of antibiotics on dialysis",
    teaches: "Dialysis keeps both arms, whatever the number and even when it is blank.",
    referral: {
      ...ordinary,
      patient: adult(71, "male"),
      kidney: { replacement: "dialysis" },
      days: 42,
      infusates: ["cefazolin"],
    },
  },
  {
    id: "nobody-at-home",
    title: "Home alone, three weeks",
    teaches: "A line that nobody flushes is not placed.",
    referral: {
      ...ordinary,
      patient: adult(39, "male"),
      setting: "home",
      carer: "nobody",
      days: 21,
      infusates: ["ertapenem"],
    },
  },
  {
    id: "vesicant",
    title: "Three days of a vesicant against cancer",
    teaches: "Here a PICC is appropriate whatever the days.",
    referral: { ...ordinary, patient: adult(61, "female"), cancer: "solid", days: 3, infusates: ["doxorubicin"] },
  },
  {
    id: "first-call",
    title: "A call with four answers",
    teaches: "Four fields give a first answer, and say what is still to ask.",
    referral: {
      patient: adult(47, "female"),
      days: 20,
      infusates: ["ceftriaxone"],
      kidney: { replacement: "none", filtration: 92 },
    },
  },
  {
    id: "child-ten-days",
    title: "A child of seven, ten days",
    teaches: "In children the panel could not decide between eight and fourteen days.",
    referral: {
      ...ordinary,
      patient: { age: { value: 7, unit: "years" }, sex: "male", heightCm: 122 },
      days: 10,
      infusates: ["ceftriaxone"],
    },
  },
];
