/** How a sum is kept: signal at S >= decision, and what S goes back to after a signal. */
export interface CusumRule {
  readonly decision: number;
  /** Starting value; half the decision is the usual head start. */
  readonly headStart?: number;
  /** Value after a signal; zero unless said. */
  readonly resetTo?: number;
}

export interface CusumPoint {
  /** The sum after this step, before any reset. */
  readonly value: number;
  /** True at S >= decision: the equality alone moves the false-alarm time by half, so it is fixed here. */
  readonly signal: boolean;
}

/** S = max(0, S' + step), reset after every signal, so that nothing is lost or silently restarted. */
export function cusumPath(steps: readonly number[], rule: CusumRule): CusumPoint[] {
  if (!(rule.decision > 0)) throw new RangeError(`The decision limit is ${rule.decision}; it must be above zero.`);
  let sum = rule.headStart ?? 0;
  return steps.map((step) => {
    sum = Math.max(0, sum + step);
    const value = sum;
    const signal = value >= rule.decision;
    if (signal) sum = rule.resetTo ?? 0;
    return { value, signal };
  });
}
