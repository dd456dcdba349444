import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { residualFlow, solveSection, veinField, velocityAt, type VeinSection } from "../../../src/core/flow/index.ts";
import { checkAgainst } from "../../check.ts";

/** Made by elements.py beside this file. */
const elements = JSON.parse(readFileSync(new URL("elements-golden.json", import.meta.url), "utf8")) as {
  ovals: [axisRatio: number, x: number, y: number, radius: number, flow: number][];
  pairs: [apart: number, radius: number, flow: number][];
};

const solved = (section: VeinSection, tolerance: number) => {
  const answer = solveSection(section, tolerance);
  if (answer.kind === "refused") throw new Error(answer.reason);
  return answer;
};
const one = (ratio: number, offset: number, angle = 0.9): VeinSection => {
  const apart = offset * (1 - ratio);
  return {
    axisRatio: 1,
    catheters: [{ x: apart * Math.cos(angle), y: apart * Math.sin(angle), radius: ratio }],
  };
};

/** Places that look scattered and are the same in every run: multiples of the golden section and of the square root of 2. */
const scattered = Array.from({ length: 60 }, (_, index) => {
  const part = (step: number) => (index * step) % 1;
  return [0.05 + 0.87 * part(0.6180339887), part(0.4142135624)] as const;
});

checkAgainst(
  {
    quantity: "General section solver on 60 scattered ratios and offsets",
    unit: "share of the open vein",
    source: "the eccentric series of this program, another method",
    kind: "independent",
    tolerance: 1e-6,
    comparisons: 60,
  },
  (compare) => {
    for (const [ratio, offset] of scattered)
      compare(
        `ratio ${ratio.toFixed(3)}, offset ${offset.toFixed(3)}`,
        solved(one(ratio, offset), 1e-6).relativeFlow,
        residualFlow(ratio, offset),
      );
  },
);

checkAgainst(
  {
    quantity: "General section solver, centred and touching",
    unit: "share of the open vein",
    source: "closed forms at both ends, by hand",
    kind: "by-hand",
    tolerance: 1e-7,
    comparisons: 16,
  },
  (compare) => {
    for (const ratio of [0.02, 0.05, 0.1, 0.2, 1 / 3, 0.45, 0.7, 0.9])
      for (const offset of [0, 1])
        compare(
          `ratio ${ratio}, offset ${offset}`,
          solved(one(ratio, offset), 1e-6).relativeFlow,
          residualFlow(ratio, offset),
        );
  },
);

checkAgainst(
  {
    quantity: "One catheter in an oval vein",
    unit: "share of the open vein",
    source: "hp finite elements of order 14, SciPy 1.17.1",
    kind: "independent",
    tolerance: 1e-8,
    comparisons: 5,
  },
  (compare) => {
    for (const [axisRatio, x, y, radius, flow] of elements.ovals)
      compare(
        `axes ${axisRatio}, catheter ${radius} at ${x}`,
        solved({ axisRatio, catheters: [{ x, y, radius }] }, 1e-8).relativeFlow,
        flow,
      );
  },
);

checkAgainst(
  {
    quantity: "Two catheters in a round vein",
    unit: "share of the open vein",
    source: "hp finite elements of order 14 on a quarter, SciPy 1.17.1",
    kind: "independent",
    tolerance: 1e-8,
    comparisons: 10,
  },
  (compare) => {
    for (const [apart, radius, flow] of elements.pairs)
      for (const angle of [0, 0.9]) {
        const [x, y] = [apart * Math.cos(angle), apart * Math.sin(angle)];
        const catheters = [
          { x, y, radius },
          { x: -x, y: -y, radius },
        ];
        compare(`${radius} at ${apart}, turned ${angle}`, solved({ axisRatio: 1, catheters }, 1e-8).relativeFlow, flow);
      }
  },
);

checkAgainst(
  {
    quantity: "General section solver, velocity beside one catheter",
    unit: "open mean",
    source: "the image sum of this program, another method",
    kind: "independent",
    tolerance: 2e-5,
    comparisons: 120,
  },
  (compare) => {
    for (const offset of [0.3, 0.9, 1]) {
      const general = solved(one(0.4, offset, 0), 1e-6);
      const field = veinField(0.4, offset);
      for (let index = 0; index < 40; index += 1) {
        const [x, y] = [((index * 0.618) % 1.6) - 0.8, ((index * 0.414) % 1) - 0.5];
        compare(
          `offset ${offset}, (${x.toFixed(2)}, ${y.toFixed(2)})`,
          general.velocityAt(x, y),
          velocityAt(field, x, y),
        );
      }
    }
  },
);

test("the solver's own bound holds wherever the truth is known", () => {
  for (const [ratio, offset] of scattered)
    for (const tolerance of [1e-3, 1e-6]) {
      const { relativeFlow, errorBound } = solved(one(ratio, offset), tolerance);
      expect(Math.abs(relativeFlow - residualFlow(ratio, offset)), `${ratio}, ${offset}`).toBeLessThanOrEqual(
        errorBound + 1e-14,
      );
    }
});

test("a thick catheter in the middle of a flat vein, and three that touch, come within the tolerance", () => {
  expect(solved({ axisRatio: 0.5, catheters: [{ x: 0, y: 0, radius: 0.49 }] }, 1e-6).reached).toBe(true);
  const place = (radius: number, angle: number) => ({
    x: (1 - radius) * Math.cos(angle),
    y: (1 - radius) * Math.sin(angle),
    radius,
  });
  const three = solved({ axisRatio: 1, catheters: [0, 2.1, 4.2].map((angle) => place(0.2, angle)) }, 1e-5);
  expect(three.reached).toBe(true);
  expect(three.relativeFlow).toBeLessThan(residualFlow(0.2, 1));
});

test("impossible sections are refused", () => {
  const reason = (section: VeinSection) => {
    const answer = solveSection(section, 1e-6);
    return answer.kind === "refused" ? answer.reason : answer.kind;
  };
  const small = { x: 0, y: 0, radius: 0.2 };
  expect(reason({ axisRatio: 1, catheters: [] })).toBe("there is no catheter, or there are more than six");
  expect(reason({ axisRatio: 0.1, catheters: [small] })).toBe("the axis ratio is not from 0.2 to 1");
  expect(reason({ axisRatio: 1, catheters: [{ ...small, radius: 0 }] })).toBe("a catheter's radius is not above zero");
  expect(reason({ axisRatio: 1, catheters: [{ ...small, x: 0.9 }] })).toBe("a catheter does not lie inside the vein");
  expect(reason({ axisRatio: 1, catheters: [{ ...small, radius: 1 }] })).toBe(
    "a catheter does not lie inside the vein",
  );
  expect(reason({ axisRatio: 0.5, catheters: [{ ...small, radius: 0.51 }] })).toBe(
    "a catheter does not lie inside the vein",
  );
  expect(reason({ axisRatio: 1, catheters: [small, { ...small, x: 0.3 }] })).toBe("two catheters overlap");
  expect(() => solveSection({ axisRatio: 1, catheters: [small] }, 0)).toThrow(RangeError);
});
