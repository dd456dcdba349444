import type { PolicyValue } from "../../core/reason/index.ts";

/**
 * What happened to a plan, in the past tense, never rewritten. The record of the line will read the same events.
 * `happenedAt` is when the person did it, `writtenAt` when the device kept it; both are instants handed in from outside.
 */
interface Happened {
  readonly id: string;
  readonly planId: string;
  readonly happenedAt: string;
  readonly writtenAt: string;
  readonly policyVersion: string;
}

/** The limits a plan is held to, value by row; a plan keeps those it was made with until a person renews them. */
export type PolicyValues = Readonly<Record<string, PolicyValue>>;

export type PlanEvent =
  | (Happened & {
      readonly type: "PlanStarted";
      readonly practiceId: string | undefined;
      readonly policyValues: PolicyValues;
    })
  | (Happened & { readonly type: "PlanFieldTyped"; readonly path: string; readonly text: string })
  | (Happened & { readonly type: "PlanPolicyRenewed"; readonly policyValues: PolicyValues })
  | (Happened & { readonly type: "PlanPrinted" })
  | (Happened & { readonly type: "PlanVoided"; readonly reason: string });

export interface PlanState {
  readonly planId: string;
  readonly policyValues: PolicyValues;
  readonly practiceId: string | undefined;
  readonly fields: Readonly<Record<string, string>>;
  /** When each field was last typed, so that a reading can grow too old. */
  readonly typedAt: Readonly<Record<string, string>>;
  readonly startedAt: string;
  readonly lastAt: string;
  readonly printedAt: readonly string[];
  readonly voided: string | undefined;
}

export const initialState = (planId: string): PlanState => ({
  planId,
  policyValues: {},
  practiceId: undefined,
  fields: {},
  typedAt: {},
  startedAt: "",
  lastAt: "",
  printedAt: [],
  voided: undefined,
});

/** Accepts any history in the order it was stored. */
export function evolve(state: PlanState, event: PlanEvent): PlanState {
  const next = { ...state, lastAt: event.happenedAt };
  switch (event.type) {
    case "PlanStarted":
      return { ...next, practiceId: event.practiceId, policyValues: event.policyValues, startedAt: event.happenedAt };
    case "PlanPolicyRenewed":
      return { ...next, policyValues: event.policyValues };
    case "PlanFieldTyped":
      return {
        ...next,
        fields: { ...state.fields, [event.path]: event.text },
        typedAt: { ...state.typedAt, [event.path]: event.happenedAt },
      };
    case "PlanPrinted":
      return { ...next, printedAt: [...state.printedAt, event.happenedAt] };
    case "PlanVoided":
      return { ...next, voided: event.reason };
    default:
      return event satisfies never;
  }
}

export type PlanCommand =
  | { readonly type: "TypeField"; readonly path: string; readonly text: string }
  | { readonly type: "RenewPolicy"; readonly policyValues: PolicyValues }
  | { readonly type: "PrintPlan" }
  | { readonly type: "VoidPlan"; readonly reason: string };

export type Decision =
  | { readonly kind: "accepted"; readonly events: readonly PlanEvent[] }
  | { readonly kind: "refused"; readonly code: string };

/** Decides what a command does to a plan; a command that changes nothing makes no event. */
export function decide(state: PlanState, command: PlanCommand, stamp: Omit<Happened, "planId">): Decision {
  const happened = { ...stamp, planId: state.planId };
  if (state.voided !== undefined) return { kind: "refused", code: "plan-is-voided" };
  switch (command.type) {
    case "TypeField":
      if ((state.fields[command.path] ?? "") === command.text) return { kind: "accepted", events: [] };
      return {
        kind: "accepted",
        events: [{ ...happened, type: "PlanFieldTyped", path: command.path, text: command.text }],
      };
    case "RenewPolicy":
      return {
        kind: "accepted",
        events: [{ ...happened, type: "PlanPolicyRenewed", policyValues: command.policyValues }],
      };
    case "PrintPlan":
      return { kind: "accepted", events: [{ ...happened, type: "PlanPrinted" }] };
    case "VoidPlan":
      if (command.reason.trim() === "") return { kind: "refused", code: "void-needs-a-reason" };
      return { kind: "accepted", events: [{ ...happened, type: "PlanVoided", reason: command.reason }] };
    default:
      return command satisfies never;
  }
}

/** The state of every plan in a store, folded in store order. */
export function foldPlans(events: readonly PlanEvent[]): ReadonlyMap<string, PlanState> {
  const plans = new Map<string, PlanState>();
  for (const event of events)
    plans.set(event.planId, evolve(plans.get(event.planId) ?? initialState(event.planId), event));
  return plans;
}
