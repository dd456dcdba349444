import type { PlanPolicy } from "../line-plan/index.ts";
import { goldenNumbers, type GoldenNumber } from "./golden-numbers.ts";

export interface SelfTest {
  readonly passed: boolean;
  /** Names of the golden numbers that are off. */
  readonly failures: readonly string[];
}

/**
 * Computes every golden number with the code that plans and the limits the program ships with; run at every start.
 * One that is off stops all calculation. Give it the defaults, not the local table: a hospital may set its own limits,
 * and the shipped ones must still be what they were.
 */
export function runSelfTest(
  defaults: PlanPolicy,
  numbers: readonly GoldenNumber[] = goldenNumbers(defaults),
): SelfTest {
  const failures = numbers.filter((number) => isOff(number)).map(({ name }) => name);
  return { passed: failures.length === 0, failures };
}

function isOff({ now, expected, tolerance }: GoldenNumber): boolean {
  const found = now();
  if (typeof found === "string" || typeof expected === "string") return found !== expected;
  return !(Math.abs(found - expected) <= tolerance);
}
