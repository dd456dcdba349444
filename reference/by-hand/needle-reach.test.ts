import { expect, test } from "vitest";
import { angleForTrack, lengthInVein, needleReach } from "../../src/core/arm/index.ts";
import { centimetre, degree, millimetre } from "../../src/core/quantity/index.ts";
import { checkAgainst } from "../check.ts";

const reach = (depth: number, angle: number, needle = 70) =>
  needleReach({
    veinEntryCm: centimetre(10),
    depthMm: millimetre(depth),
    angle: degree(angle),
    diameterMm: millimetre(4),
    slope: 0,
    needleLengthMm: millimetre(needle),
  });

checkAgainst(
  {
    quantity: "Needle back-off, track and angle, and a short catheter's part in the vein",
    unit: "mm, degrees",
    source: "plane geometry by hand; 45 degrees as the isosceles triangle of Crit Care 2018, s13054-018-2228-1",
    kind: "by-hand",
    tolerance: 0.1,
    comparisons: 9,
  },
  (compare) => {
    for (const [depth, angle, backOff, track] of [
      [13, 30, 22.5, 26],
      [10, 45, 10, 14.1],
    ] as const) {
      const answer = reach(depth, angle);
      if (answer.kind === "refused") throw new Error(answer.reason);
      compare(`${depth} mm at ${angle}, back-off`, answer.path.backOffMm, backOff);
      compare(`${depth} mm at ${angle}, track`, answer.path.trackMm, track);
    }
    compare("15 mm along 30 mm", angleForTrack(millimetre(15), millimetre(30)) ?? Number.NaN, 30);
    for (const [length, depth, angle, inside] of [
      [48, 8, 30, 32],
      [48, 15, 30, 18],
      [48, 15, 45, 26.8],
      [64, 15, 30, 34],
    ] as const) {
      const part = lengthInVein(millimetre(length), millimetre(depth), degree(angle));
      compare(`${length} mm, ${depth} mm deep at ${angle}`, part?.insideMm ?? Number.NaN, inside);
    }
  },
);

test("a depth or an angle out of range is refused, and a needle that is too short is said", () => {
  for (const angle of [0, -5, 90.1, Number.NaN]) expect(reach(10, angle).kind).toBe("refused");
  expect(reach(-1, 45).kind).toBe("refused");
  expect(reach(13, 30, 21)).toMatchObject({ kind: "path", needleTooShort: true });
  expect(reach(13, 30, 38)).toMatchObject({ kind: "path", needleTooShort: false });
  expect(angleForTrack(millimetre(10), millimetre(8))).toBeUndefined();
  expect(lengthInVein(millimetre(48), millimetre(8), degree(0))).toBeUndefined();
  expect(lengthInVein(millimetre(48), millimetre(8), degree(30))?.share).toBeCloseTo(2 / 3, 3);
});
