/** How long a reading counts, in hours, by what was read. */
export interface ExpiryLimits {
  readonly veinReadingHours: number;
  readonly weightChildHours: number;
  readonly weightNewbornHours: number;
}

export type Freshness = "fresh" | "expired" | "not known";

/**
 * How long what was typed at a path counts; undefined for what does not grow old, and for a weight while the age is
 * missing: then no rule of any group applies.
 */
export function lastsHours(
  path: string,
  group: "newborn" | "child" | "adult" | undefined,
  limits: ExpiryLimits,
): number | undefined {
  if (/\.stations\.\d+\.(diameterMm|depthMm)$/.test(path)) return limits.veinReadingHours;
  if (!/^patient\.weight(Kg|Lb)?$/.test(path)) return undefined;
  return group === "newborn" ? limits.weightNewbornHours : group === "child" ? limits.weightChildHours : undefined;
}

/**
 * Whether a reading still counts. A reading from the future is not fresh: one of the two clocks is wrong.
 * Instants are milliseconds since 1970, handed in from outside.
 */
export function freshness(readAtMs: number, nowMs: number, lasts: number | undefined): Freshness {
  if (lasts === undefined || !Number.isFinite(readAtMs) || !Number.isFinite(nowMs) || readAtMs > nowMs) {
    return "not known";
  }
  return nowMs - readAtMs > lasts * 3_600_000 ? "expired" : "fresh";
}

/** An old machine that lost its battery starts in the past, and every age and expiry would be wrong. */
export const clockIsBehind = (nowMs: number, lastEntryMs: number | undefined): boolean =>
  lastEntryMs !== undefined && nowMs < lastEntryMs;
