/** Time on a circle: a day that repeats, or a week. */
export const MINUTES_IN_DAY = 1440;

export const wrap = (value: number, around: number): number => ((value % around) + around) % around;

/**
 * Whether two windows that recur on their active days meet.
 *   some day difference m: (delta + 1440 m) mod H < first, or H - that < second
 * `delta` is the second start less the first; windows are closed below and open above, so one may begin as another ends.
 */
export function meets(
  delta: number,
  first: number,
  second: number,
  horizonMin: number,
  dayDifferences: readonly number[],
): boolean {
  return dayDifferences.some((difference) => {
    const after = wrap(delta + difference * MINUTES_IN_DAY, horizonMin);
    return after < first || horizonMin - after < second;
  });
}

/** Every difference between a day of the second list and a day of the first, around the horizon. */
export function differencesOf(first: readonly number[], second: readonly number[], horizonDays: number): number[] {
  return [...new Set(first.flatMap((one) => second.map((other) => wrap(other - one, horizonDays))))].sort(
    (a, b) => a - b,
  );
}
