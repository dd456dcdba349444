import fc from "fast-check";
import { expect, test } from "vitest";
import { emptyMemo, planChoice, planLine } from "../../src/core/line-plan/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../src/policy/index.ts";
import { planCase } from "../../test/property/plan-cases.ts";
import { slowPlan } from "./slow-planner.ts";

const policy = planPolicyFrom(defaultPolicy.table);

test("the fast planner chooses what building and sorting every candidate chooses", () => {
  let placed = 0;
  fc.assert(
    fc.property(planCase, (input) => {
      const slow = slowPlan(input, policy);
      const fast = planChoice(input, policy, emptyMemo());
      expect({ side: fast.side, vein: fast.vein, catheterId: fast.catheterId, tunnelled: fast.tunnelled }).toEqual(
        slow
          ? { side: slow.side, vein: slow.vein, catheterId: slow.catheterId, tunnelled: slow.tunnel !== undefined }
          : { side: undefined, vein: undefined, catheterId: undefined, tunnelled: undefined },
      );
      if (slow) placed += 1;
    }),
    { seed: 20_261_125, numRuns: 150 },
  );
  expect(placed, "cases with a place").toBeGreaterThan(50);
});

test("the point aimed for stands no worse than the place that was ranked", () => {
  fc.assert(
    fc.property(planCase, (input) => {
      const answer = planLine(input, policy);
      const choice = planChoice(input, policy, emptyMemo());
      expect(answer.chosen?.side).toBe(choice.side);
      expect(answer.chosen?.vein).toBe(choice.vein);
      expect(answer.chosen?.catheterId).toBe(choice.catheterId);
      if (choice.outcome === "planned") expect(answer.outcome).toBe("planned");
    }),
    { seed: 20_261_126, numRuns: 300 },
  );
});
