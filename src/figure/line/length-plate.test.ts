import { describe, expect, test } from "vitest";
import { widthOf } from "../plate/index.ts";
import { lengthPlate } from "./length-plate.ts";

// Common practice, no source: a label that touches another is read as neither.
const reading = (day: number, outsideCm: number, label: string, fixesTip = false) => ({
  day,
  outsideCm,
  label,
  fixesTip,
});
const readings = [
  reading(0, 1, "27 Oct"),
  reading(0.1, 1, "27 Oct", true),
  reading(0.3, 1, "27 Oct"),
  reading(1, 1, "28 Oct"),
  reading(22, 1, "18 Nov"),
  reading(29, 4, "25 Nov"),
];

interface Set {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly text: string;
}
const lettering = (svg: string): readonly Set[] =>
  [...svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*font-size="(\d+)"[^>]*>([^<]*)</g)].map(
    ([, x, y, size, text]) => ({ x: Number(x), y: Number(y), size: Number(size), text: text ?? "" }),
  );

describe("the plate of the outside length", () => {
  test.each([328, 780, 860])("at %i px no date touches another, and the newest and the oldest are written", (width) => {
    const { svg } = lengthPlate({ readings, baselineCm: 1, noiseCm: 0.5, outCm: 2 }, width);
    const dates = lettering(svg).filter(({ text }) => /^\d+ (Oct|Nov)$/.test(text));
    expect(dates.map(({ text }) => text)).toEqual(expect.arrayContaining(["27 Oct", "25 Nov"]));
    for (const one of dates)
      for (const other of dates)
        if (one !== other && one.y === other.y)
          expect(Math.abs(one.x - other.x)).toBeGreaterThan((widthOf(one.text, one) + widthOf(other.text, other)) / 2);
  });

  test.each([4, 12.5])("on a small screen a length of %f cm stays inside the drawing", (outsideCm) => {
    const moved = [...readings.slice(0, -1), reading(29, outsideCm, "25 Nov")];
    const { svg } = lengthPlate({ readings: moved, baselineCm: 1, noiseCm: 0.5, outCm: 2 }, 328);
    const now = lettering(svg).find(({ text }) => text.endsWith("cm"));
    expect(now?.text).toContain(outsideCm.toFixed(1));
    expect((now?.x ?? 0) + widthOf(now?.text ?? "", { size: now?.size ?? 0, weight: 700 })).toBeLessThanOrEqual(328);
  });
});
