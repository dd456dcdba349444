import type { EventsInDays } from "../../../src/core/incidence/index.ts";
import { day } from "../../../src/core/quantity/index.ts";
import { checkPairs, type Pair } from "../../check.ts";

/** Both limits of an interval as two such pairs. */
export const both = (place: string, ours: { lower: number; upper: number }, lower: number, upper: number): Pair[] => [
  [`${place}, lower`, ours.lower, lower],
  [`${place}, upper`, ours.upper, upper],
];

/** Holds every pair of a quantity together, to a relative tolerance. */
export const values = (quantity: string, source: string, pairs: readonly Pair[], tolerance = 1e-8): void =>
  checkPairs({ quantity, source, tolerance, unit: "relative", kind: "independent" }, pairs);

/** Events on the exact clock. */
export const seen = (events: number, days: number): EventsInDays<"exact"> => ({
  events,
  days: day(days),
  clock: "exact",
});

/** An answer that has to be there: its reason for being absent is thrown. */
export function known<Answer>(answer: Answer | string): Answer {
  if (typeof answer === "string") throw new Error(answer);
  return answer;
}
