import { expect, test } from "vitest";
import { gaussLegendre, integrate } from "./gauss-legendre.ts";
import { columnsOf, leastSquares } from "./least-squares.ts";
import { rootBetween } from "./root.ts";

test("a rule of n nodes is exact to degree 2 n - 1, and not beyond", () => {
  for (const n of [1, 2, 5, 24]) {
    const rule = gaussLegendre(n);
    expect(integrate(rule, 0, 1, (x) => x ** (2 * n - 1))).toBeCloseTo(1 / (2 * n), 14);
  }
  expect(Math.abs(integrate(gaussLegendre(2), 0, 1, (x) => x ** 4) - 0.2)).toBeGreaterThan(1e-3);
});

test("roots are found to the precision asked, also where one end is flat", () => {
  expect(rootBetween(Math.cos, 0, 3, 1e-14)).toBeCloseTo(Math.PI / 2, 13);
  expect(rootBetween((x) => x ** 9 - 1e-9, 0, 1, 1e-12)).toBeCloseTo(0.1, 11);
});

test("a straight line through three points, and a basis that repeats itself", () => {
  const line = columnsOf(3, 2);
  line.values.set([1, 1, 1, 0, 1, 2]);
  const [level, slope] = leastSquares(line, Float64Array.from([1, 3, 4]));
  // normal equations by hand: slope 3/2, level 7/6
  expect(level).toBeCloseTo(7 / 6, 14);
  expect(slope).toBeCloseTo(1.5, 14);
  const twice = columnsOf(3, 2);
  twice.values.set([1, 2, 3, 1, 2, 3]);
  const x = leastSquares(twice, Float64Array.from([2, 4, 6]));
  expect((x[0] as number) + (x[1] as number)).toBeCloseTo(2, 14);
  expect(() => leastSquares(columnsOf(1, 2), new Float64Array(1))).toThrow(RangeError);
});
