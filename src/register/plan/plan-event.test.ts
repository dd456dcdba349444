import { describe, expect, test } from "vitest";
import { decide, evolve, foldPlans, initialState, type PlanCommand, type PlanEvent } from "./plan-event.ts";

const stamp = {
  id: "e1",
  happenedAt: "2026-11-25T09:00:00Z",
  writtenAt: "2026-11-25T09:00:01Z",
  policyVersion: "abcd1234",
};
const started: PlanEvent = {
  ...stamp,
  planId: "p",
  type: "PlanStarted",
  practiceId: undefined,
  policyValues: { "ratio.limit": 0.45 },
};
const given = (...events: PlanEvent[]) => events.reduce(evolve, initialState("p"));
const when = (state: ReturnType<typeof given>, command: PlanCommand) => decide(state, command, stamp);

describe("a plan on this device", () => {
  test("given a started plan, when a field is typed, then its text is kept as typed", () => {
    const decision = when(given(started), { type: "TypeField", path: "patient.weight", text: "seven" });
    if (decision.kind !== "accepted") throw new Error(decision.code);
    expect(given(started, ...decision.events).fields).toEqual({ "patient.weight": "seven" });
  });

  test("given a text, when the same text comes again, then nothing happens", () => {
    const typed: PlanEvent = { ...stamp, planId: "p", type: "PlanFieldTyped", path: "need.lumens", text: "2" };
    expect(when(given(started, typed), { type: "TypeField", path: "need.lumens", text: "2" })).toEqual({
      kind: "accepted",
      events: [],
    });
  });

  test("given a voided plan, when anything is typed, then it is refused", () => {
    const voided: PlanEvent = { ...stamp, planId: "p", type: "PlanVoided", reason: "test patient" };
    expect(when(given(started, voided), { type: "PrintPlan" })).toEqual({ kind: "refused", code: "plan-is-voided" });
    expect(when(given(started), { type: "VoidPlan", reason: " " })).toEqual({
      kind: "refused",
      code: "void-needs-a-reason",
    });
  });

  test("given a plan, when today's policy is taken, then its limits change, and not before", () => {
    expect(given(started).policyValues).toEqual({ "ratio.limit": 0.45 });
    const decision = when(given(started), { type: "RenewPolicy", policyValues: { "ratio.limit": 0.4 } });
    if (decision.kind !== "accepted") throw new Error(decision.code);
    expect(given(started, ...decision.events).policyValues).toEqual({ "ratio.limit": 0.4 });
  });

  test("events of two plans fold apart", () => {
    const plans = foldPlans([started, { ...started, planId: "q", id: "e2" }]);
    expect([...plans.keys()]).toEqual(["p", "q"]);
  });
});
