import { expect, test } from "vitest";
import { centimetre, degree, millimetre } from "../quantity/index.ts";
import { needlePath, skinBand, thirdsOf, tunnelFrom } from "./index.ts";

// An isosceles right triangle: at 45 degrees the back-off equals the depth and the track is root two of it.
test("at 45 degrees the skin is entered as far back as the vein is deep", () => {
  const path = needlePath({
    veinEntryCm: centimetre(11),
    depthMm: millimetre(12),
    angle: degree(45),
    diameterMm: millimetre(4),
    slope: 0,
  });
  expect(path.skinCm).toBeCloseTo(9.8, 10);
  expect(path.trackMm).toBeCloseTo(12 * Math.SQRT2, 10);
  expect(path.runToBackWallMm).toBeCloseTo(4 * Math.SQRT2, 10);
});

// 4 mm vein at 30 degrees: 8.0 mm to the back wall when level, 4 / sin 20 = 11.7 mm when it deepens by 10 degrees.
test("a vein that deepens toward the shoulder gives the needle a longer run", () => {
  const level = {
    veinEntryCm: centimetre(11),
    depthMm: millimetre(10),
    angle: degree(30),
    diameterMm: millimetre(4),
    slope: 0,
  };
  expect(needlePath(level).runToBackWallMm).toBeCloseTo(8, 10);
  expect(needlePath({ ...level, slope: Math.tan((10 * Math.PI) / 180) }).runToBackWallMm).toBeCloseTo(
    4 / Math.sin((20 * Math.PI) / 180),
    10,
  );
});

test("a needle flatter than the vein's own fall never meets the back wall", () => {
  const path = needlePath({
    veinEntryCm: centimetre(11),
    depthMm: millimetre(10),
    angle: degree(30),
    diameterMm: millimetre(4),
    slope: 1,
  });
  expect(path.runToBackWallMm).toBeUndefined();
});

// 10 mm deep, 40 against 50 degrees: 11.9 and 8.4 mm back (plane geometry).
test("a hand five degrees off moves the skin entry by millimetres", () => {
  const band = skinBand({
    veinEntryCm: centimetre(10),
    depthMm: millimetre(10),
    angle: degree(45),
    angleError: degree(5),
  });
  expect(band.fromCm).toBeCloseTo(10 - 1.19175, 4);
  expect(band.toCm).toBeCloseTo(10 - 0.8391, 4);
});

test("a tunnel ends clear of the upper border, and none is made where it would not fit", () => {
  const thirds = thirdsOf(centimetre(21));
  const limits = { tapeErrorMm: millimetre(5), leastTunnelMm: millimetre(20) };
  expect(tunnelFrom(thirds, centimetre(16), limits)).toEqual({ exitCm: 13.5, needleSkinCm: 16, lengthMm: 25 });
  expect(tunnelFrom(thirds, centimetre(14.5), limits)?.exitCm).toBe(12.5);
  expect(tunnelFrom(thirdsOf(centimetre(3)), centimetre(2.1), limits)).toBeUndefined();
});
