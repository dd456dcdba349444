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
          readonly lower: number;
          readonly upper: number;
          readonly signal: "high" | "low" | undefined;
        }
      | undefined;
  }[];
  readonly gaps: readonly { readonly on: CivilDate }[];
}

export type ChartInput = Pick<Parameters<typeof controlChart>[0], "basePerThousand" | "spans" | "eventShares">;

/** A chart as its plate draws it; undefined where the base has no event. */
export function chartInput(
  { plan, spans, gaps }: ChartNumbers,
  now: { readonly from: CivilDate; readonly to: CivilDate },
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
      lower: point && point.lower * PER,
      upper: point && point.upper * PER,
      signal: point?.signal,
    })),
    eventShares: gaps.map(({ on }) => (dayNumber(on) - opens + 0.5) / (closes - opens)),
  };
}
