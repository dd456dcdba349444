export interface GuardedData {
  /** Days of each line, and events of each person. */
  readonly daysByLine: readonly number[];
  readonly eventsByPerson: readonly number[];
  /** Lines that ended, those that ended by another cause first, and those whose end or reason nobody knows. */
  readonly ends: number;
  readonly otherEnds: number;
  readonly unknownEnds: number;
}

/** Shares of one above which a figure is not shown without its warning. */
export interface GuardLimits {
  readonly daysOfOneLine: number;
  readonly eventsOfOnePerson: number;
  readonly otherEnds: number;
  readonly unknownEnds: number;
}

export interface RaisedGuard {
  readonly guard: keyof GuardLimits;
  readonly share: number;
  readonly limit: number;
}

/**
 * What must be said before a figure of few lines is read.
 *   largest line's days / all days, largest person's events / all events, other ends / ends, unknown ends / ends
 * Other ends above their limit: show the cumulative incidence, not the curve that censors them. Units: shares of one.
 * Holds: no number below zero, parts within their wholes, else RangeError; a whole of nought raises nothing.
 * Source: common practice, no source: 20 %, 20 %, 10 %, 5 %. Example: days 30, 10, 10 at a limit of 0.2: share 0.6, raised.
 */
export function sparseGuards(seen: GuardedData, limits: GuardLimits): RaisedGuard[] {
  const numbers = [...seen.daysByLine, ...seen.eventsByPerson, seen.ends, seen.otherEnds, seen.unknownEnds];
  if (numbers.some((value) => !(value >= 0)) || seen.otherEnds + seen.unknownEnds > seen.ends)
    throw new RangeError("A count is below zero, or more lines ended in one way than ended; correct the counts.");
  const largest = (parts: readonly number[]) => {
    const whole = parts.reduce((sum, part) => sum + part, 0);
    return whole > 0 ? parts.reduce((most, part) => Math.max(most, part), 0) / whole : 0;
  };
  const ofEnds = (part: number) => (seen.ends > 0 ? part / seen.ends : 0);
  const shares: Readonly<Record<keyof GuardLimits, number>> = {
    daysOfOneLine: largest(seen.daysByLine),
    eventsOfOnePerson: largest(seen.eventsByPerson),
    otherEnds: ofEnds(seen.otherEnds),
    unknownEnds: ofEnds(seen.unknownEnds),
  };
  return (Object.keys(shares) as (keyof GuardLimits)[])
    .filter((guard) => shares[guard] > limits[guard])
    .map((guard) => ({ guard, share: shares[guard], limit: limits[guard] }));
}
