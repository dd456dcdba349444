import { missing } from "../../src/core/missing/index.ts";
import { centimetre } from "../../src/core/quantity/index.ts";
import {
  armMovement,
  correctFilm,
  judgeReaders,
  junctionTargets,
  tipEstimate,
  unitsForChild,
  type FilmReading,
} from "../../src/core/tip/index.ts";
import { defaultPolicyTable, tipPolicyFrom } from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";

const policy = tipPolicyFrom(defaultPolicyTable);
const film = (filmCm: number, magnification: number): FilmReading => ({
  place: "right atrium",
  filmCm: centimetre(filmCm),
  magnification,
  unitOnFilmCm: missing("not measured"),
  ageYears: 50,
  arm: "at the side",
  armConfirmedBy: "",
  outsideCm: centimetre(0.5),
  insideCm: centimetre(43.5),
  symptoms: missing("not asked"),
});

checkAgainst(
  {
    quantity: "Film correction",
    unit: "cm",
    source: "7.3 / 1.12 and 4.03 (Mahlon and Yoon 2007, J Vasc Interv Radiol 18:1106), worked by hand",
    kind: "by-hand",
    tolerance: 0.005,
    comparisons: 4,
  },
  (compare) => {
    const answer = correctFilm(film(7.3, 1.12), policy);
    if (answer.kind !== "withdraw") throw new Error(answer.kind);
    compare("true depth", answer.trueDepthCm, 6.518);
    compare("withdraw by", answer.withdrawCm, 2.488);
    compare("outside after", answer.outsideCm, 2.988);
    compare("inside after", answer.insideCm, 41.012);
  },
);

checkAgainst(
  {
    quantity: "Carina to junction, published",
    unit: "cm",
    source: "Mahlon 2007 (4.03), Song 2015 Br J Anaesth 115:252 (5.43; unit 2.14), Baskin 2008 (2 units)",
    kind: "published",
    tolerance: 0.005,
    comparisons: 3,
  },
  (compare) => {
    const of = (name: string) =>
      junctionTargets(50, undefined, policy).find((one) => one.name === name)?.cm ?? Number.NaN;
    compare("Mahlon", of("Mahlon 2007"), 4.03);
    compare("Song", of("Song 2015"), 5.43);
    compare("Baskin by an adult's unit", of("Baskin 2008"), 4.28);
  },
);

checkAgainst(
  {
    quantity: "Carina to junction in children",
    unit: "vertebral units",
    source: "Hirschl 2020, Pediatr Surg Int, 584 CTs",
    kind: "published",
    tolerance: 1e-12,
    comparisons: 5,
  },
  (compare) => {
    for (const [years, units] of [
      [0.5, 1.25],
      [1, 1.27],
      [6, 1.34],
      [9, 1.53],
      [17, 1.64],
    ] as const) {
      compare(`${years} years`, unitsForChild(years, policy), units);
    }
  },
);

checkAgainst(
  {
    quantity: "Tip from an outside length",
    unit: "cm",
    source: "a tip at the junction of 4.03 cm (Mahlon 2007), 3 cm further out, worked by hand",
    kind: "by-hand",
    tolerance: 1e-9,
    comparisons: 2,
  },
  (compare) => {
    const estimate = tipEstimate(4.03, 3, 4.03, policy);
    compare("below the carina at most", estimate?.depthAtMostCm ?? Number.NaN, 1.03);
    compare("in the middle third, 1 is yes", Number(estimate?.zone === "middle of the cava"), 1);
  },
);

checkAgainst(
  {
    quantity: "Newborn's basilic tip, arm from 90 degrees to the side",
    unit: "cm",
    source: "abstract A29 2013, Arch Dis Child 98(suppl 1): 0.17 mm a degree (-0.53 to 1.4); times 90 by hand",
    kind: "published",
    tolerance: 0.05,
    comparisons: 1,
  },
  (compare) => {
    const moved = armMovement({ group: "newborn", vein: "basilic", broughtInDegree: 90 }, policy);
    compare("90 degrees", moved.expectedCm ?? Number.NaN, 1.5);
  },
);

checkAgainst(
  {
    quantity: "Two readers of one film, within print",
    unit: "1 is yes",
    source: "25 films read by 23 radiologists, PMC5124912: -2.5 to +1.8 cm between readers",
    kind: "published",
    tolerance: 1e-12,
    comparisons: 2,
  },
  (compare) => {
    compare("2 cm apart", Number(judgeReaders(4, 2, policy).verdict === "met"), 1);
    compare("2.6 cm apart", Number(judgeReaders(4, 1.4, policy).verdict === "met"), 0);
  },
);
