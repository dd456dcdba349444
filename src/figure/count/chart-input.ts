import { poissonAtLeast, poissonSignalCount } from "../../core/distribution/index.ts";
import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { sayMonth } from "../../language/index.ts";
import type { controlChart } from "./control-chart.ts";
import type { timePlate } from "./time-plate.ts";

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

/** What a chart of the service adds where a sum is kept. */
interface SumNumbers {
  readonly watch:
    | {
        readonly decision: number;
        readonly points: readonly { readonly on: CivilDate; readonly sum: number; readonly signal: boolean }[];
      }
    | undefined;
}

interface NumberedChange {
  readonly number: number;
  readonly on: CivilDate;
  readonly words: string;
}

type TimeInput = ChartInput & Pick<Parameters<typeof timePlate>[0], "sum" | "changes" | "spanEnds">;

/** A chart with its sum and the changes of practice, as the plate of time draws it; undefined where the base has no event. */
export function timeInput(
  chart: ChartNumbers & SumNumbers,
  now: { readonly from: CivilDate; readonly to: CivilDate },
  signalChance: number,
  { changes, provisionalFrom }: { readonly changes: readonly NumberedChange[]; readonly provisionalFrom: CivilDate },
): TimeInput | undefined {
  const input = chartInput(chart, now, signalChance);
  if (!input) return undefined;
  const [opens, closes] = [dayNumber(now.from), dayNumber(now.to)];
  const share = (on: CivilDate, part: number): number => (dayNumber(on) - opens + part) / (closes - opens);
  const { watch, spans } = chart;
  return {
    ...input,
    // a point stands at the end of its day: the whole day is in it
    sum: watch && {
      decision: watch.decision,
      points: watch.points
        .filter(({ on }) => on >= now.from && on < now.to)
        .map(({ on, sum, signal }) => ({ share: share(on, 1), sum, signal, provisional: on >= provisionalFrom })),
    },
    changes: changes
      .filter(({ on }) => on >= now.from && on < now.to)
      .map(({ number, on, words }) => ({ number, words, share: share(on, 0) })),
    spanEnds: spans.map((_, at) => (spans[at + 1] ? share((spans[at + 1] as { from: CivilDate }).from, 0) : 1)),
  };
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
      share: (dayNumber(from) - opens) / (closes - opens),
      events,
      days: lineDays,
      perThousand: point && point.rate * PER,
      ...(point ? exactLimits(base, lineDays, signalChance) : { lower: undefined, upper: undefined }),
      signal: point?.signal,
    })),
    eventShares: gaps.map(({ on }) => (dayNumber(on) - opens + 0.5) / (closes - opens)),
  };
}
