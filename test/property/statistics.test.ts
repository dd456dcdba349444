import fc from "fast-check";
import { expect, test } from "vitest";
import {
  incompleteBeta,
  incompleteBetaInverse,
  incompleteGamma,
  incompleteGammaInverse,
} from "../../src/core/distribution/index.ts";
import { suppressSmallCells } from "../../src/core/disclosure/index.ts";
import { decisionLimit, eventsToSignal } from "../../src/core/control-chart/index.ts";
import { COUNT_METHODS, countLimits, proportionLimits, rateRatio } from "../../src/core/incidence/index.ts";
import { day } from "../../src/core/quantity/index.ts";

const runs = (count: number) => ({ seed: 11, numRuns: count * Number(process.env["VEINWRIGHT_CASES"] ?? 1) });
const positive = (least: number, most: number) =>
  fc.double({ min: Math.log(least), max: Math.log(most), noNaN: true }).map((power) => Math.exp(power));
const tail = positive(1e-250, 0.999);
const side = fc.constantFrom("lower" as const, "upper" as const);

test("a quantile is where its tail says, in both tails and at every shape", () => {
  fc.assert(
    fc.property(positive(0.01, 1e5), tail, side, (shape, p, side) => {
      const x = incompleteGammaInverse(shape, side, p);
      fc.pre(x > 1e-290);
      // moving x by one part in 1e13 moves the tail by no more than 1e-13 (x + shape) of itself in the far tails
      expect(Math.abs(incompleteGamma(shape, x)[side] / p - 1)).toBeLessThan(1e-13 * (10 + x + shape));
    }),
    runs(400),
  );
  fc.assert(
    fc.property(positive(0.5, 1e4), positive(0.5, 1e4), tail, side, (a, b, p, side) => {
      const { share, rest } = incompleteBetaInverse(a, b, side, p);
      fc.pre(share > 1e-290 && rest > 1e-290);
      expect(Math.abs(incompleteBeta(a, b, share, rest)[side] / p - 1)).toBeLessThan(1e-13 * (10 + a + b));
    }),
    runs(400),
  );
});

test("the mirror of a beta is the beta of the mirror", () => {
  fc.assert(
    fc.property(positive(0.5, 1e4), positive(0.5, 1e4), positive(1e-6, 0.5), (a, b, x) => {
      expect(incompleteBeta(a, b, x, 1 - x)).toEqual(
        expect.objectContaining({
          lower: expect.closeTo(incompleteBeta(b, a, 1 - x, x).upper, 12) as number,
        }),
      );
    }),
    runs(200),
  );
});

test("limits hold the count between them, grow with the level, and mid-P lies inside the exact ones", () => {
  fc.assert(
    fc.property(fc.nat(3000), fc.double({ min: 0.5, max: 0.98, noNaN: true }), (events, level) => {
      for (const method of COUNT_METHODS) {
        const { lower, upper } = countLimits(events, level, method);
        const wider = countLimits(events, level + 0.01, method);
        expect(lower).toBeLessThanOrEqual(events);
        expect(upper).toBeGreaterThan(events);
        expect(wider.lower).toBeLessThanOrEqual(lower);
        expect(wider.upper).toBeGreaterThan(upper);
      }
      const [exact, midP] = [countLimits(events, level, "exact"), countLimits(events, level, "mid-P")];
      expect(midP.lower).toBeGreaterThanOrEqual(exact.lower);
      expect(midP.upper).toBeLessThan(exact.upper);
    }),
    runs(150),
  );
});

test("turning a ratio round turns its limits round", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 200 }),
      fc.integer({ min: 1, max: 200 }),
      positive(1, 1e6),
      positive(1, 1e6),
      (x, y, t, s) => {
        const first = { events: x, days: day(t), clock: "exact line-days" };
        const second = { events: y, days: day(s), clock: "exact line-days" };
        for (const method of ["exact", "mid-P"] as const) {
          const [there, back] = [rateRatio(first, second, 0.95, method), rateRatio(second, first, 0.95, method)];
          if (typeof there === "string" || typeof back === "string") throw new Error("no ratio");
          expect(there.lower * back.upper).toBeCloseTo(1, 10);
          expect(there.twoSidedMidP).toBeCloseTo(back.twoSidedMidP, 10);
        }
      },
    ),
    runs(100),
  );
});

test("counting failures instead of successes mirrors the limits of a proportion", () => {
  fc.assert(
    fc.property(fc.nat(400), fc.nat(400), (x, rest) => {
      fc.pre(x + rest > 0);
      for (const method of ["exact", "mid-P", "Wilson", "Jeffreys"] as const) {
        const there = proportionLimits(x, x + rest, 0.95, method);
        const back = proportionLimits(rest, x + rest, 0.95, method);
        expect(there.lower + back.upper).toBeCloseTo(1, 12);
      }
    }),
    runs(100),
  );
});

test("a decision limit gives the wanted time between false signals, and a worse rate is seen sooner", () => {
  fc.assert(
    fc.property(fc.double({ min: 1.3, max: 4, noNaN: true }), fc.integer({ min: 5, max: 2000 }), (ratio, wanted) => {
      const limit = decisionLimit(ratio, wanted);
      // the mean jumps where the limit passes a multiple of the rise, so the limit found is the first that is enough
      expect(eventsToSignal(ratio, limit, 1)).toBeGreaterThanOrEqual(wanted * (1 - 1e-9));
      expect(eventsToSignal(ratio, limit, ratio)).toBeLessThan(eventsToSignal(ratio, limit, 1));
    }),
    runs(100),
  );
});

test("no small cell is printed, and none can be told from the smallest that is shown", () => {
  const table = fc
    .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 6 }))
    .chain(([rows, columns]) =>
      fc.array(fc.array(fc.nat(14), { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows }),
    );
  fc.assert(
    fc.property(
      table,
      fc.integer({ min: 2, max: 6 }),
      fc.boolean(),
      fc.boolean(),
      (counts, smallestShown, rowTotals, columnTotals) => {
        const answer = suppressSmallCells(counts, { smallestShown, rowTotals, columnTotals });
        const shown = [
          ...answer.cells.flat(),
          ...(answer.rowTotals ?? []),
          ...(answer.columnTotals ?? []),
          answer.total ?? 0,
        ];
        for (const cell of shown) if (cell !== "withheld") expect(cell === 0 || cell >= smallestShown).toBe(true);
        for (const cell of answer.withheld) {
          expect(cell.least).toBeLessThan(cell.most);
          if (cell.small) expect(cell.most).toBeGreaterThanOrEqual(smallestShown);
        }
      },
    ),
    runs(300),
  );
});
