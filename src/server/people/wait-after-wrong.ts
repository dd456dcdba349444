import type { PeopleLimits } from "./people-limits.ts";

/**
 * Seconds still to wait before another try counts: none for the free ones, then 2, 4, 8 s, up to the longest, counted
 * from the last wrong one. Never for good: whoever locks another out does so for minutes.
 */
export function secondsToWait(
  wrong: number,
  lastAt: string,
  now: Date,
  { freeTries, longestWaitSeconds }: PeopleLimits,
): number {
  if (wrong < freeTries) return 0;
  const wait = Math.min(2 ** Math.min(wrong - freeTries + 1, 30), longestWaitSeconds);
  const gone = (now.getTime() - Date.parse(lastAt)) / 1000;
  return Math.max(0, Math.ceil(wait - gone));
}
