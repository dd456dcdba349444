import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { readCase } from "../../contract/index.ts";
import { bedsidePlan } from "../../core/line-plan/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../policy/index.ts";
import { demoShelf, practicePatients } from "../../practice/index.ts";
import { Paper } from "./paper.tsx";

function printed(id: string) {
  const reading = readCase(practicePatients.find((one) => one.id === id)?.planCase, demoShelf);
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  const plan = bedsidePlan(reading.input, planPolicyFrom(defaultPolicy.table));
  const paper = renderToStaticMarkup(
    <Paper input={reading.input} plan={plan} policy={defaultPolicy} practice chartPlace={() => undefined} />,
  );
  return { plan, paper };
}

// Common practice, no source: nobody reads a time-out over a plan that is stopped.
test("a stopped plan has no time-out, no strip and no cut, though it names a place", () => {
  const { plan, paper } = printed("two-tapes");
  expect(plan.standing).toBe(3);
  expect(plan.answer.chosen).toBeDefined();
  expect(plan.trim).toBeUndefined();
  expect(paper).toBe("");
});

test("a plan without a stop has its time-out, with name, number, arm and strip", () => {
  const { plan, paper } = printed("plain");
  expect(plan.standing).toBe(0);
  expect(plan.trim?.totalCm).toBeGreaterThan(0);
  expect(paper).toContain("This is ROWAN, Edda, number P-20418.");
  expect(paper).toContain("RIGHT ARM");
  expect(paper).toContain("<svg");
});
