import fc from "fast-check";
import { expect, test } from "vitest";
import {
  flowByAssumption,
  flowSensitivity,
  meanWallShear,
  ratioForFlow,
  residualFlow,
  slowShare,
  solveSection,
  veinField,
  velocityAt,
  wallShear,
} from "../../src/core/flow/index.ts";

const runs = (count: number) => ({ seed: 7, numRuns: count * Number(process.env["VEINWRIGHT_CASES"] ?? 1) });
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const ratio = between(0.02, 0.97);
/** Offsets crowd at both ends, where the forms change. */
const offset = fc.oneof(
  between(0, 1),
  fc.integer({ min: 1, max: 12 }).map((power) => 1 - 10 ** -power),
  fc.integer({ min: 1, max: 12 }).map((power) => 10 ** -power),
  fc.constantFrom(0, 1),
);

test("flow never falls as the catheter moves from the middle to the wall", () => {
  fc.assert(
    fc.property(ratio, offset, offset, (k, a, b) => {
      const [near, far] = a < b ? [a, b] : [b, a];
      expect(residualFlow(k, far)).toBeGreaterThanOrEqual(residualFlow(k, near) * (1 - 1e-11));
    }),
    runs(2000),
  );
});

test("a thicker catheter always leaves less, and the flow stays between the thin-gap floor and one", () => {
  fc.assert(
    fc.property(between(0.001, 0.9999), between(1e-4, 0.5), offset, (k, step, at) => {
      const thicker = k + step * (1 - k);
      if (thicker >= 1) return;
      expect(residualFlow(thicker, at)).toBeLessThan(residualFlow(k, at));
      expect(residualFlow(k, at)).toBeGreaterThan(0);
      expect(residualFlow(k, at)).toBeLessThan(1);
    }),
    runs(2000),
  );
});

test("the ratio for a flow leaves that flow", () => {
  fc.assert(
    fc.property(between(1e-4, 0.98), offset, (flow, at) => {
      expect(residualFlow(ratioForFlow(flow, at), at) / flow).toBeCloseTo(1, 8);
    }),
    runs(500),
  );
});

test("the pressure on the open area is held by both walls: closed forms, and the field's shear added up", () => {
  fc.assert(
    fc.property(ratio, offset, (k, at) => {
      const mean = meanWallShear(k, at);
      expect(mean.vein + k * mean.catheter).toBeCloseTo(1 - k * k, 12);
      const field = veinField(k, at);
      const places = 4000;
      const sum = (wall: "vein" | "catheter") => {
        let total = 0;
        for (let index = 0; index < places; index += 1)
          total += wallShear(field, wall, (2 * Math.PI * (index + 0.5)) / places);
        return total / places;
      };
      expect(sum("vein")).toBeCloseTo(mean.vein, 8);
      expect(sum("catheter")).toBeCloseTo(mean.catheter, 8);
    }),
    runs(25),
  );
});

test("the field adds up to the flow", () => {
  fc.assert(
    fc.property(ratio, offset, (k, at) => {
      const field = veinField(k, at);
      const { apart } = field.annulus;
      const [angles, steps] = [240, 60];
      let flow = 0;
      for (let index = 0; index < angles; index += 1) {
        const t = (Math.PI * (index + 0.5)) / angles;
        const edge = -apart * Math.cos(t) + Math.sqrt(1 - (apart * Math.sin(t)) ** 2);
        for (let step = 0; step < steps; step += 1) {
          const r = k + ((edge - k) * (step + 0.5)) / steps;
          flow += (2 * velocityAt(field, apart + r * Math.cos(t), r * Math.sin(t)) * r * (edge - k)) / angles / steps;
        }
      }
      expect(flow / residualFlow(k, at)).toBeCloseTo(1, 3);
    }),
    runs(40),
  );
});

test("no velocity is negative and none is above the open vein's", () => {
  fc.assert(
    fc.property(ratio, offset, between(-1, 1), between(-1, 1), (k, at, x, y) => {
      const velocity = velocityAt(veinField(k, at), x, y);
      expect(velocity).toBeGreaterThan(-1e-11);
      expect(velocity).toBeLessThanOrEqual(Math.max(0, 2 * (1 - x * x - y * y)) + 1e-11);
    }),
    runs(3000),
  );
});

test("a higher slow limit never finds less slow blood", () => {
  fc.assert(
    fc.property(ratio, offset, between(0.01, 1.9), between(0.01, 1.9), (k, at, a, b) => {
      const field = veinField(k, at);
      const [low, high] = a < b ? [a, b] : [b, a];
      expect(slowShare(field, high).ofBlood).toBeGreaterThanOrEqual(slowShare(field, low).ofBlood - 1e-6);
    }),
    runs(100),
  );
});

test("the series assumption lies between the flow and one, and the sensitivity is never positive", () => {
  fc.assert(
    fc.property(ratio, offset, between(0, 1), (k, at, share) => {
      const phi = residualFlow(k, at);
      const { seriesResistance } = flowByAssumption(phi, share);
      expect(seriesResistance).toBeGreaterThanOrEqual(phi - 1e-15);
      expect(seriesResistance).toBeLessThanOrEqual(1 + 1e-15);
      expect(flowSensitivity(k, at)).toBeLessThan(0);
    }),
    runs(500),
  );
});

test("the general solver agrees with the series within its own bound, turned any way", () => {
  fc.assert(
    fc.property(between(0.03, 0.95), between(0, 1), between(0, 7), (k, at, angle) => {
      const apart = at * (1 - k);
      const answer = solveSection(
        { axisRatio: 1, catheters: [{ x: apart * Math.cos(angle), y: apart * Math.sin(angle), radius: k }] },
        1e-6,
      );
      if (answer.kind === "refused") throw new Error(answer.reason);
      expect(Math.abs(answer.relativeFlow - residualFlow(k, at))).toBeLessThanOrEqual(answer.errorBound + 1e-13);
      expect(answer.errorBound).toBeLessThan(1e-5);
    }),
    runs(60),
  );
});

test("a second catheter never lets more through, in a round vein or an oval one", () => {
  fc.assert(
    fc.property(between(0.5, 1), between(0.05, 0.2), between(0.05, 0.2), between(0.02, 0.3), (axes, a, b, room) => {
      const first = { x: -(a + room / 2), y: 0, radius: a };
      const second = { x: b + room / 2, y: 0.05, radius: b };
      const flow = (catheters: readonly { x: number; y: number; radius: number }[]) => {
        const answer = solveSection({ axisRatio: axes, catheters }, 1e-5);
        if (answer.kind === "refused") throw new Error(answer.reason);
        return answer;
      };
      const [alone, both, swapped] = [flow([first]), flow([first, second]), flow([second, first])];
      expect(both.relativeFlow).toBeLessThan(alone.relativeFlow);
      expect(Math.abs(both.relativeFlow - swapped.relativeFlow)).toBeLessThanOrEqual(
        both.errorBound + swapped.errorBound + 1e-13,
      );
    }),
    runs(25),
  );
});
