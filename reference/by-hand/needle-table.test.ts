import { describe, expect, test } from "vitest";
import { bandAt, needlePath, skinBand, thirdsOf } from "../../src/core/arm/index.ts";
import { planLine, type ArmInput } from "../../src/core/line-plan/index.ts";
import { centimetre, degree, millimetre } from "../../src/core/quantity/index.ts";
import { readCase } from "../../src/contract/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../src/policy/index.ts";
import { demoShelf, practicePatients } from "../../src/practice/index.ts";
import { checkAgainst } from "../check.ts";

const policy = planPolicyFrom(defaultPolicy.table);

const ANGLES = [15, 20, 25, 30, 35, 45, 60] as const;
const path = (depth: number, angle: number, slope = 0, diameter = 4) =>
  needlePath({
    veinEntryCm: centimetre(10),
    depthMm: millimetre(depth),
    angle: degree(angle),
    diameterMm: millimetre(diameter),
    slope,
  });

/** Depth; then back-off and track in mm at each angle: h / tan t and h / sin t, to one place. */
const needleTable: readonly [depth: number, ...(readonly [backOff: number, track: number])[]][] = [
  [3, [11.2, 11.6], [8.2, 8.8], [6.4, 7.1], [5.2, 6], [4.3, 5.2], [3, 4.2], [1.7, 3.5]],
  [5, [18.7, 19.3], [13.7, 14.6], [10.7, 11.8], [8.7, 10], [7.1, 8.7], [5, 7.1], [2.9, 5.8]],
  [8, [29.9, 30.9], [22, 23.4], [17.2, 18.9], [13.9, 16], [11.4, 13.9], [8, 11.3], [4.6, 9.2]],
  [10, [37.3, 38.6], [27.5, 29.2], [21.4, 23.7], [17.3, 20], [14.3, 17.4], [10, 14.1], [5.8, 11.5]],
  [12, [44.8, 46.4], [33, 35.1], [25.7, 28.4], [20.8, 24], [17.1, 20.9], [12, 17], [6.9, 13.9]],
  [15, [56, 58], [41.2, 43.9], [32.2, 35.5], [26, 30], [21.4, 26.2], [15, 21.2], [8.7, 17.3]],
  [20, [74.6, 77.3], [54.9, 58.5], [42.9, 47.3], [34.6, 40], [28.6, 34.9], [20, 28.3], [11.5, 23.1]],
];

checkAgainst(
  {
    quantity: "Needle back-off and track, seven depths by seven angles",
    unit: "mm",
    source: "plane geometry, worked by hand to one place",
    kind: "by-hand",
    tolerance: 0.051,
    comparisons: 98,
  },
  (compare) => {
    for (const [depth, ...row] of needleTable) {
      for (const [column, [backOff, track]] of row.entries()) {
        const angle = ANGLES[column] as number;
        compare(`${depth} mm at ${angle}, back-off`, path(depth, angle).backOffMm, backOff);
        compare(`${depth} mm at ${angle}, track`, path(depth, angle).trackMm, track);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Run to the back wall of a 4 mm vein, level and sloped",
    unit: "mm",
    source: "plane geometry, by hand: D / sin(t - b)",
    kind: "by-hand",
    tolerance: 0.051,
    comparisons: 8,
  },
  (compare) => {
    const level = [15.5, 11.7, 9.5, 8, 7, 5.7, 4.6];
    for (const [column, angle] of ANGLES.entries())
      compare(`${angle} degrees, level`, path(5, angle).runToBackWallMm ?? Number.NaN, level[column] as number);
    const deepening = Math.tan((10 * Math.PI) / 180);
    compare("30 degrees, vein deepening by 10", path(5, 30, deepening).runToBackWallMm ?? Number.NaN, 11.7);
  },
);

checkAgainst(
  {
    quantity: "Skin entries when the hand is five degrees off, 10 mm deep",
    unit: "mm",
    source: "plane geometry, by hand: back-offs at 40 and 50, 25 and 35 degrees",
    kind: "by-hand",
    tolerance: 0.051,
    comparisons: 4,
  },
  (compare) => {
    const backOffs = (angle: number) => {
      const band = skinBand({
        veinEntryCm: centimetre(10),
        depthMm: millimetre(10),
        angle: degree(angle),
        angleError: degree(5),
      });
      return [(10 - band.fromCm) * 10, (10 - band.toCm) * 10] as const;
    };
    compare("45, held flat", backOffs(45)[0], 11.9);
    compare("45, held steep", backOffs(45)[1], 8.4);
    compare("30, held flat", backOffs(30)[0], 21.4);
    compare("30, held steep", backOffs(30)[1], 14.3);
  },
);

describe("where skin and vein lie in the thirds of an 18 cm arm", () => {
  const thirds = thirdsOf(centimetre(18));
  const skin = (veinEntryCm: number, depthMm: number, angle: number) =>
    needlePath({
      veinEntryCm: centimetre(veinEntryCm),
      depthMm: millimetre(depthMm),
      angle: degree(angle),
      diameterMm: millimetre(4),
      slope: 0,
    }).skinCm;

  test("a vein entered at 13.0 in the upper third is reached from 11.8 in the middle third", () => {
    expect(bandAt(thirds, centimetre(13))).toBe("upper third");
    expect(skin(13, 12, 45)).toBeCloseTo(11.8, 10);
    expect(bandAt(thirds, skin(13, 12, 45))).toBe("preferred half");
  });

  test("a vein entered at 7.0 is reached from 5.5, in the lower third", () => {
    expect(bandAt(thirds, centimetre(7))).toBe("lower half of the middle third");
    expect(skin(7, 15, 45)).toBeCloseTo(5.5, 10);
    expect(bandAt(thirds, skin(7, 15, 45))).toBe("lower third");
  });

  test("a vein 3.2 cm deep is past the limit of 2.5 to 3 cm, and 2.4 cm is not", () => {
    const reading = readCase(practicePatients[0]?.planCase, demoShelf);
    if (reading.kind === "faults") throw new Error("faults");
    const verdictAt = (depthMm: number) => {
      const deep = (arm: ArmInput): ArmInput => ({
        ...arm,
        armLengthCm: centimetre(30),
        surveys: arm.surveys.map((survey) => ({
          ...survey,
          stations: survey.stations.map((station) => ({ ...station, depthMm: millimetre(depthMm) })),
        })),
      });
      const { right, left } = reading.input.arms;
      const answer = planLine({ ...reading.input, arms: { right: deep(right), left: deep(left) } }, policy);
      return answer.chosen?.findings.find(({ code }) => code === "vein-depth")?.verdict ?? answer.emptiedBy;
    };
    expect(verdictAt(32)).toBe("vein-depth");
    expect(verdictAt(24)).toBe("met");
  });
});
