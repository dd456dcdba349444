import { poissonAtLeast, poissonSignalCount } from "../../core/distribution/index.ts";
import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { sayMonth } from "../../language/index.ts";
import type { controlChart } from "./control-chart.ts";

const PER = 1000;

/** What a chart of the service holds, as far as a plate draws it; rates and limits are per day of the clock. */
export interface ChartNumbers {
  readonly plan: { readonly base: { readonly perThousand: number } };
  readonly spans: readonly {
    readonly from: CivilDate;
    readonly events: number;
    readonly lineDays: number;
    readonly point:
      | {
          readonly rate: number;
          readonly signal: "high" | "low" | undefined;
        }
      | undefined;
  }[];
  readonly gaps: readonly { readonly on: CivilDate }[];
}

export type ChartInput = Pick<Parameters<typeof controlChart>[0], "basePerThousand" | "spans" | "eventShares">;

/**
 * Limits that a point crosses exactly when its tail signals: half an event from the first count that would.
 *   upper (k - 1/2) / T, k smallest with P(X >= k) < p; lower (k + 1/2) / T, k largest with P(X <= k) < p, or none
 * Units: per 1000 days. Holds: base and days above zero. Source: definition; the half is drawing only.
 */
function exactLimits(
  base: number,
  lineDays: number,
  chance: number,
): { readonly lower: number | undefined; readonly upper: number } {
  const mean = (base * lineDays) / PER;
  let low = -1;
  while (1 - poissonAtLeast(low + 2, mean) < chance) low += 1;
  const perThousand = (count: number) => (PER * count) / lineDays;
  return {
    lower: low < 0 ? undefined : perThousand(low + 0.5),
    upper: perThousand(poissonSignalCount(mean, chance) - 0.5),
  };
}

/** A chart as its plate draws it; undefined where the base has no event. */
export function chartInput(
  { plan, spans, gaps }: ChartNumbers,
  now: { readonly from: CivilDate; readonly to: CivilDate },
  signalChance: number,
): ChartInput | undefined {
  const base = plan.base.perThousand;
  if (!(base > 0)) return undefined;
  const [opens, closes] = [dayNumber(now.from), dayNumber(now.to)];
  return {
    basePerThousand: base,
    spans: spans.map(({ from, events, lineDays, point }) => ({
      name: sayMonth(from),
      events,
      days: lineDays,
      perThousand: point && point.rate * PER,
      ...(point ? exactLimits(base, lineDays, signalChance) : { lower: undefined, upper: undefined }),
      signal: point?.signal,
    })),
    eventShares: gaps.map(({ on }) => (dayNumber(on) - opens + 0.5) / (closes - opens)),
  };
}
