import { noQuestions } from "../plausibility/index.ts";
import { movableInputs, type MovableAnswer, type MovableNumber } from "./movable-inputs.ts";
import { choiceOf, sameChoice, type PlanChoice } from "./plan-answer.ts";
import type { PlanInput } from "./plan-input.ts";
import { planChoice, planLine } from "./plan-line.ts";
import type { PlanPolicy } from "./plan-policy.ts";
import { emptyMemo, type ScanMemo } from "./scene.ts";

/** The nearest value of one number, in one direction, at which the choice turns; confirmed by a full plan on both sides. */
export interface NumberFlip {
  readonly kind: "number";
  readonly path: string;
  readonly unit: string;
  readonly direction: "up" | "down";
  readonly from: number;
  /** Last value with today's choice and first value with another; they differ by the precision. */
  readonly lastSame: number;
  readonly firstDifferent: number;
  readonly precision: number;
  readonly becomes: PlanChoice;
}

/** Nothing turns within the plausible range, as far as the values probed can tell. */
export interface NoFlip {
  readonly kind: "none";
  readonly path: string;
  readonly unit: string;
  readonly direction: "up" | "down";
  readonly searchedTo: number;
  readonly probes: number;
}

export interface AnswerFlip {
  readonly kind: "answer";
  readonly path: string;
  readonly value: string;
  /** Undefined when the other answer leaves the choice as it is. */
  readonly becomes: PlanChoice | undefined;
}

export type Flip = NumberFlip | NoFlip | AnswerFlip;

/** Values tried between here and the end of the range before a direction is called steady. */
const PROBES = 6;

/**
 * For every known input of a plan, the nearest value that would change the choice, as they are found.
 * Each direction is probed at steps that double away from the present value, then the turn is closed in on by halving
 * until it is one readable step wide, and confirmed by a full plan on both sides.
 * Holds: one input moved at a time. A choice that turns and turns back between two probes is not seen.
 */
export function* whatWouldChange(input: PlanInput, local: PlanPolicy): Generator<Flip> {
  const memo: ScanMemo = emptyMemo();
  // a moved number that begins to look like another unit sends no hands elsewhere
  const policy = { ...local, plausible: noQuestions };
  const now = planChoice(input, policy, memo);
  for (const movable of movableInputs(input)) {
    if (movable.kind === "answer") yield* answerFlips(movable, now, policy, memo);
    else {
      yield numberFlip(movable, "down", now, policy, memo);
      yield numberFlip(movable, "up", now, policy, memo);
    }
  }
}

function* answerFlips(
  movable: MovableAnswer,
  now: PlanChoice,
  policy: PlanPolicy,
  memo: ScanMemo,
): Generator<AnswerFlip> {
  for (const { value, write } of movable.others) {
    const becomes = planChoice(write(), policy, memo);
    yield { kind: "answer", path: movable.path, value, becomes: sameChoice(now, becomes) ? undefined : becomes };
  }
}

function numberFlip(
  movable: MovableNumber,
  direction: "up" | "down",
  now: PlanChoice,
  policy: PlanPolicy,
  memo: ScanMemo,
): NumberFlip | NoFlip {
  const { path, unit, value, step } = movable;
  const sign = direction === "up" ? 1 : -1;
  const end = direction === "up" ? movable.most : movable.least;
  const steps = Math.floor((sign * (end - value)) / step + 1e-9);
  const at = (count: number) => roundToStep(value + sign * count * step, step);
  const isSame = (count: number) => sameChoice(now, planChoice(movable.write(at(count)), policy, memo));

  let same = 0;
  let different: number | undefined;
  for (const count of probeSteps(steps)) {
    if (isSame(count)) same = count;
    else {
      different = count;
      break;
    }
  }
  if (different === undefined)
    return { kind: "none", path, unit, direction, searchedTo: end, probes: Math.min(PROBES, Math.max(steps, 0)) };
  while (different - same > 1) {
    const middle = Math.floor((same + different) / 2);
    if (isSame(middle)) same = middle;
    else different = middle;
  }
  const lastSame = same === 0 ? value : at(same);
  const becomes = choiceOf(planLine(movable.write(at(different)), policy, memo));
  const before = same === 0 ? now : choiceOf(planLine(movable.write(lastSame), policy, memo));
  // the full plan has the last word: where it sees no turn, none is reported
  if (sameChoice(before, becomes))
    return { kind: "none", path, unit, direction, searchedTo: at(different), probes: PROBES };
  return {
    kind: "number",
    path,
    unit,
    direction,
    from: value,
    lastSame,
    firstDifferent: at(different),
    precision: step,
    becomes,
  };
}

/** Step counts from near to far: each about three times the one before, the last at the end of the range. */
function probeSteps(steps: number): readonly number[] {
  if (steps < 1) return [];
  const ratio = steps ** (1 / Math.max(1, PROBES - 1));
  const counts = Array.from({ length: PROBES }, (_, index) => Math.max(1, Math.round(ratio ** index)));
  return [...new Set([...counts, steps])].filter((count) => count <= steps).sort((a, b) => a - b);
}

/** Keeps 2.9 from becoming 2.9000000000000004. */
const roundToStep = (value: number, step: number): number =>
  Math.round(value / step) * step === value ? value : Number(value.toFixed(6));
