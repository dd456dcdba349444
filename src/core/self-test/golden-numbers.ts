import { needlePath, thirdsOf } from "../arm/index.ts";
import { lidocaineCeiling } from "../anaesthetic/index.ts";
import { addDays, midnightsBetween, parseCivilDate, type CivilDate } from "../calendar/index.ts";
import { judgeRatio, leastVeinByCaliper } from "../catheter/index.ts";
import { adultCreaseToCarina, childAxillaryToCarina, trimOf } from "../length/index.ts";
import { largestFrenchFor, type PlanPolicy } from "../line-plan/index.ts";
import {
  centimetre,
  day,
  degree,
  french,
  frenchToMillimetre,
  inch,
  inchToCentimetre,
  kilogram,
  millimetre,
  pound,
  poundToKilogram,
} from "../quantity/index.ts";

export interface GoldenNumber {
  readonly name: string;
  /** Computed now, by the code that plans and the limits it ships with. */
  readonly now: () => number | string;
  readonly expected: number | string;
  /** Half a unit of the last printed digit, or nothing at all. */
  readonly tolerance: number;
}

const golden = (
  name: string,
  now: GoldenNumber["now"],
  expected: GoldenNumber["expected"],
  tolerance = 1e-9,
): GoldenNumber => ({ name, now, expected, tolerance });

/** Numbers known from outside the program: definitions, hand sums and printed limits. */
export function goldenNumbers(limits: PlanPolicy): readonly GoldenNumber[] {
  return [...unitNumbers, ...armNumbers, ...ratioNumbers(limits), ...lengthNumbers(limits), ...limitNumbers(limits)];
}

const civil = (text: string) => parseCivilDate(text) as CivilDate;

const unitNumbers: readonly GoldenNumber[] = [
  golden("4 Fr in mm", () => frenchToMillimetre(french(4)), 4 / 3),
  golden("22 lb in kg", () => poundToKilogram(pound(22)), 9.97903214),
  golden("16 in in cm", () => inchToCentimetre(inch(16)), 40.64),
  golden("3 June to 17 June, midnights", () => midnightsBetween(civil("2025-06-03"), civil("2025-06-17")), 14),
  golden("5 August and 7 days", () => addDays(civil("2025-08-05"), 7), "2025-08-12"),
];

const armNumbers: readonly GoldenNumber[] = [
  ...[21, 18, 15, 12].flatMap((length) => [
    golden(`end of the lower third of ${length} cm`, () => thirdsOf(centimetre(length)).middleFromCm, length / 3),
    golden(
      `start of the upper third of ${length} cm`,
      () => thirdsOf(centimetre(length)).upperFromCm,
      (2 * length) / 3,
    ),
  ]),
  golden("start of the preferred half of 18 cm", () => thirdsOf(centimetre(18)).preferredFromCm, 9),
  ...(
    [
      [45, 12, 16.9706],
      [30, 20.7846, 24],
    ] as const
  ).flatMap(([angle, backOff, track]) => {
    const path = () =>
      needlePath({
        veinEntryCm: centimetre(10),
        depthMm: millimetre(12),
        angle: degree(angle),
        diameterMm: millimetre(4),
        slope: 0,
      });
    return [
      golden(`12 mm deep at ${angle} degrees, back-off`, () => path().backOffMm, backOff, 5e-5),
      golden(`12 mm deep at ${angle} degrees, track`, () => path().trackMm, track, 5e-5),
    ];
  }),
];

function ratioNumbers(limits: PlanPolicy): readonly GoldenNumber[] {
  const cuts = { limit: limits.ratioLimit, chanceMet: limits.chanceMet, chanceNotMet: limits.chanceNotMet };
  const judge = (size: number, diameterMm: number) =>
    judgeRatio(
      {
        outsideDiameterMm: frenchToMillimetre(french(size)),
        diameterMm: millimetre(diameterMm),
        sdMm: limits.oneReadingSdMm,
      },
      cuts,
    );
  return [
    golden("4 Fr in 4.3 mm, ratio", () => judge(4, 4.3).ratio, 0.310078, 5e-7),
    golden("5 Fr in 3.70 mm, ratio", () => judge(5, 3.7).ratio, 0.45045, 5e-6),
    golden("5 Fr in 3.70 mm, verdict", () => judge(5, 3.7).verdict, "at the limit"),
    golden("5 Fr in 3.80 mm, chance", () => judge(5, 3.8).chance, 0.6259, 5e-4),
    golden("4 Fr in 3.80 mm, chance", () => judge(4, 3.8).chance, 0.9974, 5e-5),
    golden("4 Fr in 2.5 mm, verdict", () => judge(4, 2.5).verdict, "not met"),
    ...(
      [
        [3, 2.3],
        [4, 3],
        [5, 3.8],
        [6, 4.5],
      ] as const
    ).flatMap(([size, least]) => {
      const by = (limit: number) => leastVeinByCaliper(frenchToMillimetre(french(size)), limit);
      return [
        golden(`least vein for ${size} Fr`, () => by(limits.ratioLimit), least),
        golden(`least vein for ${size} Fr at one third`, () => by(limits.ratioMarks[0] ?? Number.NaN), size),
      ];
    }),
  ];
}

function lengthNumbers(limits: PlanPolicy): readonly GoldenNumber[] {
  const child = (side: "right" | "left") => childAxillaryToCarina(side, centimetre(100));
  const trim = () =>
    trimOf({
      fromVeinEntryCm: centimetre(38),
      trackMm: millimetre(17),
      tunnelMm: millimetre(30),
      outsideCm: centimetre(3),
    });
  const crease = () => adultCreaseToCarina(centimetre(15), centimetre(20)) + limits.carinaToJunctionCm;
  return [
    golden("child 100 cm, right, to carina", () => child("right"), 12.03),
    golden("child 100 cm, left, to carina", () => child("left"), 13.71),
    golden("clavicle 15, sternum 20, crease to junction", crease, 48.53),
    golden("38 cm, 17 mm track, 30 mm tunnel, 3 cm outside", () => trim().totalCm, 45.7),
  ];
}

function limitNumbers(limits: PlanPolicy): readonly GoldenNumber[] {
  const ml = (kg: number, concentrationPercent: number, withAdrenaline: boolean) =>
    lidocaineCeiling(
      { group: "adult", ageDays: day(18_262), weightKg: kilogram(kg), concentrationPercent, withAdrenaline },
      limits.lidocaine,
    ).mostMl ?? "no number";
  return [
    golden("lidocaine, 50 kg plain 1 %, mL", () => ml(50, 1, false), 22.5),
    golden("lidocaine, 70 kg plain 2 %, mL", () => ml(70, 2, false), 15),
    golden("lidocaine, 50 kg with adrenaline 1 %, mL", () => ml(50, 1, true), 35),
    golden("lidocaine, 80 kg with adrenaline 1 %, mL", () => ml(80, 1, true), 50),
    ...(
      [
        [10, 3],
        [10.1, 4],
        [50, 4],
        [50.1, 5],
      ] as const
    ).map(([kg, size]) => golden(`largest French at ${kg} kg`, () => largestFrenchFor(kilogram(kg), limits), size)),
    golden("a newborn is under, days", () => limits.newbornUnderDays, 28),
    golden("an adult is from, years", () => limits.adultFromYears, 18),
    golden(
      "veins in order",
      () => limits.veinOrder.join(", "),
      "basilic, brachial, second brachial, cephalic, axillary",
    ),
    golden("dialysis access", () => limits.armBars["dialysis-access"] ?? "nothing", "bar"),
  ];
}
