import { expect, test } from "vitest";
import { readCase } from "../../contract/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../policy/index.ts";
import { demoShelf, practicePatients } from "../../practice/index.ts";
import { bedsidePlan, choiceOf, sameChoice, whatWouldChange } from "./index.ts";

const policy = planPolicyFrom(defaultPolicy.table);

test("a catheter shorter than its own trim leaves the shelf and is named", () => {
  const reading = readCase(practicePatients[0]?.planCase, demoShelf);
  if (reading.kind === "faults") throw new Error("faults");
  const plan = bedsidePlan(reading.input, policy);
  const chosen = demoShelf.find(({ id }) => id === plan.answer.chosen?.catheterId);
  expect(chosen?.lengthCm).toBeGreaterThanOrEqual(plan.trim?.totalCm ?? Infinity);
  const short = plan.answer.findings.find(({ code }) => code === "catheter-too-short");
  expect(short?.values["catheters"]).toEqual(["2 Fr single"]);
});

test("tapes that disagree still take off the shelf what is shorter than both", () => {
  const patient = practicePatients.find(({ id }) => id === "two-tapes");
  const reading = readCase(patient?.planCase, demoShelf);
  if (reading.kind === "faults") throw new Error("faults");
  const { trim, answer } = bedsidePlan(reading.input, policy);
  expect(trim).toBeUndefined();
  expect(answer.chosen?.catheterId).toBe("3-single");
});

// By hand: 38.25 cm mean of the tapes, track 12 / sin 60 = 13.856 mm, 3 cm outside: 39.636 inside, 42.636 in all.
test("the trim is the vein, the track and what stays outside", () => {
  const reading = readCase(practicePatients[0]?.planCase, demoShelf);
  if (reading.kind === "faults") throw new Error("faults");
  const { trim, answer } = bedsidePlan(reading.input, policy);
  expect(answer.chosen?.angleDegree).toBe(60);
  expect(trim?.insideCm).toBeCloseTo(38.25 + 1.2 / Math.sin(Math.PI / 3), 9);
  expect(trim?.totalCm).toBeCloseTo(38.25 + 1.2 / Math.sin(Math.PI / 3) + 3, 9);
});

test("what would change the plan starts from the plan that is shown", () => {
  const reading = readCase(practicePatients[0]?.planCase, demoShelf);
  if (reading.kind === "faults") throw new Error("faults");
  const { planned, answer } = bedsidePlan(reading.input, policy);
  for (const flip of whatWouldChange(planned, policy)) {
    if (flip.kind === "number") expect(sameChoice(flip.becomes, choiceOf(answer)), flip.path).toBe(false);
    expect(JSON.stringify(flip)).not.toContain("2-single");
  }
});
