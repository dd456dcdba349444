import fc from "fast-check";
import loadHighs from "highs";
import { expect, test, vi } from "vitest";
import { fewestLumens, type DrugChart, type FewestLumens } from "../../src/core/drug-chart/index.ts";
import { minute } from "../../src/core/quantity/index.ts";
import { CHART_KINDS, generatedChart, smallChart } from "../../reference/drug-chart-generator.ts";
import { highsLumens, highsMoves } from "../../reference/independent/drug-chart-ilp.ts";

const cases = Number(process.env["VEINWRIGHT_CASES"] ?? 1);
const runs = (count: number) => ({ seed: 11, numRuns: count * cases });
vi.setConfig({ testTimeout: 60_000 * cases });
const highs = await loadHighs();

const answerTo = (chart: DrugChart): FewestLumens => {
  const answer = fewestLumens(chart, { mayGoOn: () => true, shortRunMin: minute(60) });
  if (answer.kind === "refused") throw new Error(answer.faults.map(({ code }) => code).join());
  return answer;
};

const chart: fc.Arbitrary<DrugChart> = fc.oneof(
  fc.integer({ min: 1, max: 1_000_000 }).map(smallChart),
  fc
    .tuple(fc.constantFrom(...CHART_KINDS), fc.integer({ min: 2, max: 8 }), fc.integer({ min: 1, max: 1_000_000 }))
    .map(([kind, infusions, seed]) => generatedChart(kind, infusions, seed, 60)),
);

const keeping = (whole: DrugChart, keep: (id: string) => boolean): DrugChart => ({
  ...whole,
  infusions: whole.infusions.filter(({ id }) => keep(id)),
  compatibility: whole.compatibility.filter(({ first, second }) => keep(first) && keep(second)),
});

test("adding an infusion never lowers the number of lumens, and raises it by one at most", () => {
  let raised = 0;
  fc.assert(
    fc.property(chart, fc.nat(), (whole, which) => {
      const left = whole.infusions[which % whole.infusions.length]?.id;
      const fewer = answerTo(keeping(whole, (id) => id !== left));
      const all = answerTo(whole);
      for (const kind of ["asCharted", "retimed"] as const) {
        expect(all[kind].lumens).toBeGreaterThanOrEqual(fewer[kind].lumens);
        expect(all[kind].lumens).toBeLessThanOrEqual(fewer[kind].lumens + 1);
      }
      if (all.retimed.lumens > fewer.retimed.lumens) raised += 1;
    }),
    runs(80),
  );
  expect(raised).toBeGreaterThan(5);
});

test("a wider tolerance never raises the number of lumens, nor the moves on as many", () => {
  let lowered = 0;
  fc.assert(
    fc.property(chart, fc.integer({ min: 1, max: 4 }), (narrow, steps) => {
      const wide = {
        ...narrow,
        infusions: narrow.infusions.map((infusion) => ({
          ...infusion,
          toleranceMin: minute(infusion.toleranceMin + steps * 15),
        })),
      };
      const [before, after] = [answerTo(narrow), answerTo(wide)];
      expect(after.asCharted.lumens).toBe(before.asCharted.lumens);
      expect(after.retimed.lumens).toBeLessThanOrEqual(before.retimed.lumens);
      if (after.retimed.lumens === before.retimed.lumens)
        expect(after.retimed.dosesMoved).toBeLessThanOrEqual(before.retimed.dosesMoved);
      else lowered += 1;
    }),
    runs(80),
  );
  expect(lowered).toBeGreaterThan(5);
});

test("names and the order of the chart change nothing", () => {
  fc.assert(
    fc.property(chart, (one) => {
      const renamed = (id: string) => `x${id.split("-").toReversed().join("-")}`;
      const other: DrugChart = {
        ...one,
        infusions: one.infusions.toReversed().map((infusion) => ({ ...infusion, id: renamed(infusion.id) })),
        compatibility: one.compatibility.map(({ first, second, known }) => ({
          first: renamed(second),
          second: renamed(first),
          known,
        })),
      };
      const figures = ({ asCharted, retimed }: FewestLumens) => [
        asCharted.lumens,
        retimed.lumens,
        retimed.dosesMoved,
        retimed.totalMovedMin,
      ];
      expect(figures(answerTo(other))).toEqual(figures(answerTo(one)));
    }),
    runs(80),
  );
});

test("the set that proves the number needs all of it and loses a lumen without any one", () => {
  fc.assert(
    fc.property(chart, (whole) => {
      const { retimed } = answerTo(whole);
      const { proof, lumens } = retimed;
      expect(proof?.irreducible).toBe(true);
      const ids = proof?.infusionIds ?? [];
      expect(answerTo(keeping(whole, (id) => ids.includes(id))).retimed.lumens).toBe(lumens);
      for (const left of ids)
        expect(answerTo(keeping(whole, (id) => ids.includes(id) && id !== left)).retimed.lumens).toBe(lumens - 1);
    }),
    runs(50),
  );
});

test("a stopped search never claims more than it knows", () => {
  let open = 0;
  fc.assert(
    fc.property(chart, fc.integer({ min: 0, max: 6 }), (whole, questions) => {
      let asked = 0;
      const stopped = fewestLumens(whole, {
        mayGoOn: () => {
          asked += 1;
          return asked <= questions;
        },
        shortRunMin: minute(60),
      });
      if (stopped.kind === "refused") throw new Error("refused");
      const complete = answerTo(whole);
      for (const kind of ["asCharted", "retimed"] as const) {
        expect(stopped[kind].atLeast).toBeLessThanOrEqual(complete[kind].lumens);
        expect(stopped[kind].lumens).toBeGreaterThanOrEqual(complete[kind].lumens);
        if (stopped[kind].status === "proven") expect(stopped[kind].lumens).toBe(complete[kind].lumens);
      }
      const same = stopped.retimed.lumens === complete.retimed.lumens;
      if (same) {
        expect(stopped.retimed.atLeastMoved).toBeLessThanOrEqual(complete.retimed.dosesMoved);
        expect(stopped.retimed.dosesMoved).toBeGreaterThanOrEqual(complete.retimed.dosesMoved);
        if (stopped.retimed.movesStatus === "proven")
          expect([stopped.retimed.dosesMoved, stopped.retimed.totalMovedMin]).toEqual([
            complete.retimed.dosesMoved,
            complete.retimed.totalMovedMin,
          ]);
      }
      if (stopped.retimed.movesStatus !== "proven" || stopped.retimed.status !== "proven") open += 1;
    }),
    runs(80),
  );
  expect(open).toBeGreaterThan(5);
});

test("every dose keeps its tolerance, and no lumen holds two doses that may not meet", () => {
  fc.assert(
    fc.property(chart, (whole) => {
      for (const { doses, lumens } of Object.values(pickAnswers(answerTo(whole)))) {
        for (const dose of doses) {
          const infusion = whole.infusions.find(({ id }) => id === dose.infusionId);
          expect(Math.abs(dose.movedMin)).toBeLessThanOrEqual(infusion?.toleranceMin ?? 0);
          if (infusion?.content === "nutrition" || !infusion?.movable) expect(dose.movedMin).toBe(0);
          expect(dose.lumen).toBeLessThanOrEqual(lumens);
        }
        if (whole.horizonDays === 1) expect(meetings(whole, doses)).toEqual([]);
      }
    }),
    runs(80),
  );
});

test("an independent solver finds the same lumens and moves", () => {
  let moved = 0;
  fc.assert(
    fc.property(chart, (whole) => {
      const { asCharted, retimed } = answerTo(whole);
      expect(highsLumens(highs, whole, true, asCharted.lumens)).toBe(retimed.lumens);
      const theirs = highsMoves(highs, whole, retimed.lumens);
      expect([retimed.dosesMoved, retimed.totalMovedMin]).toEqual([theirs.moves, theirs.movedMin]);
      if (retimed.dosesMoved > 0) moved += 1;
    }),
    runs(20),
  );
  expect(moved).toBeGreaterThan(2);
});

const pickAnswers = ({ asCharted, retimed }: FewestLumens) => ({ asCharted, retimed });

/** Pairs of doses on one lumen at one minute that no row of the table lets share. */
function meetings(whole: DrugChart, doses: FewestLumens["asCharted"]["doses"]): string[] {
  const infusion = (id: string) => whole.infusions.find((one) => one.id === id);
  const apart = (first: string, second: string) =>
    infusion(first)?.dedicated ||
    infusion(second)?.dedicated ||
    !whole.compatibility.some(
      (pair) =>
        pair.known === "compatible" && [pair.first, pair.second].sort().join() === [first, second].sort().join(),
    );
  const covers = (dose: (typeof doses)[number], now: number) =>
    infusion(dose.infusionId)?.dedicated || (now - dose.occupiedFromMin + 2880) % 1440 < dose.occupiedForMin;
  return doses.flatMap((one, index) =>
    doses.slice(index + 1).flatMap((other) => {
      if (one.lumen !== other.lumen || one.infusionId === other.infusionId) return [];
      if (!apart(one.infusionId, other.infusionId)) return [];
      const meet = Array.from({ length: 1440 }, (_, now) => now).some((now) => covers(one, now) && covers(other, now));
      return meet ? [`${one.infusionId} and ${other.infusionId} on ${one.lumen}`] : [];
    }),
  );
}
