import type { PlanCase } from "../contract/index.ts";

/** An invented patient with a trap in it. Every name and number is made up for practice. */
export interface PracticePatient {
  readonly id: string;
  readonly title: string;
  readonly trap: string;
  readonly explanation: string;
  readonly planCase: PlanCase;
}

type Arm = NonNullable<PlanCase["arms"]["right"]>;
type Survey = NonNullable<Arm["surveys"]>[number];
type Station = Survey["stations"][number];

const clear = {
  artery: "none",
  nerveBeside: false,
  compressible: true,
  thrombus: false,
  tourniquetOn: false,
  repeats: 1,
} as const;
const reading = (atCm: number, diameterMm: number, depthMm: number, more: Partial<Station> = {}): Station => ({
  atCm,
  diameterMm,
  depthMm,
  ...clear,
  ...more,
});
const vein = (name: Survey["vein"], ...stations: Station[]): Survey => ({ vein: name, stations });
const arm = (armLengthCm: number, surveys: Survey[], bars: string[] = []): Arm => ({ armLengthCm, bars, surveys });

interface Person {
  readonly name: string;
  readonly identifier: string;
  readonly age: number;
  readonly unit?: "years" | "months" | "days";
  readonly kg: number;
  readonly cm: number;
  readonly dominant?: "right" | "left";
  readonly more?: Partial<PlanCase["patient"]>;
}

function caseOf(person: Person, lumens: number, arms: PlanCase["arms"], more: Partial<PlanCase> = {}): PlanCase {
  return {
    patient: {
      name: person.name,
      identifier: person.identifier,
      age: { value: person.age, unit: person.unit ?? "years" },
      weightKg: person.kg,
      heightCm: person.cm,
      dominantArm: person.dominant ?? "right",
      ...person.more,
    },
    need: { lumens, flowMlPerHour: 0, blood: false, contrastMlPerSecond: 0 },
    arms,
    anaesthetic: { concentrationPercent: 1, withAdrenaline: false },
    ...more,
  };
}

const tape = (fromCm: number, right: number, second = right): PlanCase["length"] => ({
  sides: {
    right: { tapeFromCm: fromCm, surfaceTapeCm: right, secondTapeCm: second },
    left: { tapeFromCm: fromCm, surfaceTapeCm: right + 3, secondTapeCm: second + 3 },
  },
  outsideCm: 3,
});

export const practicePatients: readonly PracticePatient[] = [
  {
    id: "plain",
    title: "A plain start",
    trap: "None. Read the answer, then move the entry.",
    explanation:
      "One good basilic vein. The smallest catheter that carries one lumen is enough; a bigger vein earns nothing.",
    planCase: caseOf(
      { name: "ROWAN, Edda", identifier: "P-20418", age: 58, kg: 71, cm: 168, dominant: "left" },
      1,
      {
        right: arm(18.6, [
          vein("basilic", reading(5.5, 2.9, 6), reading(8.5, 3.5, 9), reading(11, 4.1, 12), reading(14, 4.6, 18)),
        ]),
        left: arm(18.6, []),
      },
      { length: tape(11, 38, 38.5) },
    ),
  },
  {
    id: "coin-flip",
    title: "44 per cent is not a yes",
    trap: "5\u00A0Fr in a 3.8\u00A0mm vein reads 44\u00A0%, under the 45\u00A0% line.",
    explanation: "One reading hides 0.3 mm. The chance of truly being within the limit is 63 in 100: the plan asks.",
    planCase: caseOf(
      { name: "BIRK, Oskar", identifier: "P-11730", age: 44, kg: 82, cm: 181 },
      2,
      { right: arm(21, []), left: arm(21, [vein("basilic", reading(11.5, 3.8, 10), reading(13, 3.8, 11))]) },
      { need: { lumens: 2, flowMlPerHour: 800, blood: false, contrastMlPerSecond: 0 } },
    ),
  },
  {
    id: "tourniquet",
    title: "The band was still on",
    trap: "The vein was measured with the tourniquet tied.",
    explanation:
      "A tourniquet widens the vein by about 0.7 mm. The plan flags it and takes nothing off: measure again.",
    planCase: caseOf({ name: "SOLBERG, Una", identifier: "P-30951", age: 67, kg: 59, cm: 160 }, 1, {
      left: arm(18, [
        vein("basilic", reading(9, 3.3, 8, { tourniquetOn: true }), reading(12, 3.6, 10, { tourniquetOn: true })),
      ]),
      right: arm(18, []),
    }),
  },
  {
    id: "barred-arm",
    title: "The better vein is in the barred arm",
    trap: "The left arm carries a fistula for dialysis.",
    explanation:
      "A barred arm is no candidate, however good its vein. The other arm is also part of the dialysis plan: ask.",
    planCase: caseOf({ name: "FALK, Henrike", identifier: "P-40077", age: 71, kg: 66, cm: 165 }, 1, {
      left: arm(19, [vein("basilic", reading(9, 5, 8), reading(13, 5.4, 10))], ["dialysis-access"]),
      right: arm(19, [vein("brachial", reading(10, 3.2, 14), reading(13, 3.5, 16))]),
    }),
  },
  {
    id: "not-asked",
    title: "Nobody asked about the arms",
    trap: "Everything is measured, and the list of reasons against an arm was never asked.",
    explanation: "Missing is not none. No arm is chosen until the question has been put.",
    planCase: caseOf({ name: "THORN, Malte", identifier: "P-51163", age: 39, kg: 77, cm: 178 }, 1, {
      right: { armLengthCm: 20, surveys: [vein("basilic", reading(10, 4.4, 9), reading(13, 4.8, 11))] },
    }),
  },
  {
    id: "pounds",
    title: "Twenty-two of what?",
    trap: "A child of 14 months weighs 22 on the ward's scale.",
    explanation: "22 lb is 9.98 kg. Weight is entered with its unit and both readings are shown.",
    planCase: caseOf({ name: "LINDEN, Mio", identifier: "P-61240", age: 14, unit: "months", kg: 9.98, cm: 77 }, 1, {
      right: arm(10.5, [vein("basilic", reading(5, 3.1, 5), reading(6.5, 3.4, 6))]),
      left: arm(10.5, []),
    }),
  },
  {
    id: "no-vein-above",
    title: "The vein that joins early",
    trap: "The basilic vein ends at 11 cm; above it there is no basilic to find.",
    explanation: '"No vein here" is a reading. Nothing is drawn across it, so the entry stays below.',
    planCase: caseOf({ name: "AHORN, Liv", identifier: "P-70815", age: 52, kg: 64, cm: 170 }, 1, {
      right: arm(20, [vein("basilic", reading(8, 4, 8), reading(10.5, 4.3, 9), { atCm: 12, veinPresent: false })]),
      left: arm(20, []),
    }),
  },
  {
    id: "tunnel",
    title: "Only the armpit end is wide enough",
    trap: "The vein fits only in the upper third, where a dressing lifts.",
    explanation:
      "Enter high, tunnel down, leave the skin in the middle third. The tunnel adds catheter and is a question.",
    planCase: caseOf(
      { name: "EIBE, Konrad", identifier: "P-80242", age: 63, kg: 88, cm: 176 },
      1,
      {
        right: arm(21, [
          vein("basilic", reading(9, 1.6, 9), reading(14.5, 1.9, 12), reading(16, 4.6, 12), reading(18, 5.4, 13)),
        ]),
        left: arm(21, []),
      },
      { length: tape(16, 36) },
    ),
  },
  {
    id: "tapered",
    title: "Wider than it says",
    trap: "The only double left is a tapered one: 5 Fr on the label, 2.0 mm at the vein.",
    explanation: "The true diameter at the vein counts: 47.6 % of 4.2 mm, not 39.7 %.",
    planCase: caseOf(
      { name: "WEIDE, Ronja", identifier: "P-90533", age: 47, kg: 73, cm: 172 },
      2,
      { right: arm(20, [vein("basilic", reading(10, 4.2, 9), reading(13, 4.2, 10))]), left: arm(20, []) },
      {
        shelf: [
          {
            id: "5-double-tapered",
            name: "5 Fr double, tapered",
            nominalFrench: 5,
            outsideDiameterMm: 2,
            lumens: 2,
            lengthCm: 60,
            flowLabelMlPerHour: 950,
            bloodByLabel: true,
            contrastLabelMlPerSecond: 5,
          },
        ],
      },
    ),
  },
  {
    id: "nothing-fits",
    title: "Nothing on the shelf fits",
    trap: "Three lumens are wanted and every vein is thin.",
    explanation: "The plan names the rule that empties the list and offers what to try, in order.",
    planCase: caseOf({ name: "HASEL, Bente", identifier: "P-10964", age: 80, kg: 48, cm: 155 }, 3, {
      right: arm(17, [vein("basilic", reading(8, 2.2, 7), reading(11, 2.4, 9)), vein("brachial", reading(9, 2, 12))]),
      left: arm(17, []),
    }),
  },
  {
    id: "two-tapes",
    title: "Two tapes, two lengths",
    trap: "One tape says 41.0 cm, the other 45.5.",
    explanation: "Lengths that differ by more than the limit stop the trim. One of them is wrong: measure again.",
    planCase: caseOf(
      { name: "ULME, Jorun", identifier: "P-21387", age: 55, kg: 69, cm: 174 },
      1,
      { right: arm(20, [vein("basilic", reading(10, 4.2, 10), reading(13, 4.6, 11))]), left: arm(20, []) },
      { length: tape(12.5, 41, 45.5) },
    ),
  },
  {
    id: "newborn",
    title: "Days old",
    trap: "An adult limit carried over to a newborn.",
    explanation: "Newborns have rows of their own, and no ratio has been validated in them. The page says so.",
    planCase: caseOf(
      {
        name: "SPROSS, Junge",
        identifier: "P-31702",
        age: 12,
        unit: "days",
        kg: 3.1,
        cm: 50,
        more: { bornPreterm: false },
      },
      1,
      { right: arm(7.5, [vein("basilic", reading(3.6, 2.4, 3), reading(4.6, 2.6, 3.4))]), left: arm(7.5, []) },
    ),
  },
];
