import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import type { KeptSignal } from "../../register/index.ts";
import type { ServiceChart } from "./monitor-service.ts";
import type { Signal } from "./watch.ts";

/** The same run of days as the record has it today. */
export interface SignalNow {
  readonly events: number;
  readonly lineDays: number;
  /** The sum on that day; undefined when the path does not reach it. */
  readonly sum: number | undefined;
  /** The day of the signal that now falls into the run; undefined when there is none. */
  readonly on: CivilDate | undefined;
}

/** A signal of a chart: as it was kept, as it stands, or both. */
export interface RememberedSignal {
  readonly measure: string;
  readonly kept: KeptSignal | undefined;
  readonly present: Signal | undefined;
  /** Set when late entries changed what was kept: both are shown. */
  readonly restated: SignalNow | undefined;
  /** Kept against a base that is no longer in force: it is shown as it was and not counted again. */
  readonly earlierBase: boolean;
}

/** Line-days that differ by less are rounding, not a late entry. */
const SAME_DAYS = 0.05;

/**
 * The signals of one chart, kept and present, each once, by day.
 *   a kept signal is counted again over its own days, since to on, and at its own base and decision
 * Units: events, line-days of the measure's clock. Holds: any chart; without a sum only what was kept.
 * Source: definition. Example: kept on 3 May with 5 events, one entered late: 6 now, and 5 are shown beside them.
 */
export function rememberedSignals(
  chart: ServiceChart,
  keptSignals: readonly KeptSignal[],
  base: string | undefined,
): readonly RememberedSignal[] {
  const present = chart.watch?.signals ?? [];
  const own = keptSignals.filter(({ measure }) => measure === chart.measure);
  const matched = new Set<Signal>();
  const kept = own.map((signal): RememberedSignal => {
    const earlierBase = signal.base !== base || chart.watch === undefined;
    if (earlierBase)
      return { measure: chart.measure, kept: signal, present: undefined, restated: undefined, earlierBase };
    const now = signalNow(chart, signal);
    const same = present.find(({ on }) => on === now.on);
    if (same) matched.add(same);
    const asKept =
      now.on === signal.on && now.events === signal.events && Math.abs(now.lineDays - signal.lineDays) < SAME_DAYS;
    return {
      measure: chart.measure,
      kept: signal,
      present: same,
      restated: asKept ? undefined : now,
      earlierBase,
    };
  });
  const unkept = present
    .filter((signal) => !matched.has(signal))
    .map((signal): RememberedSignal => ({
      measure: chart.measure,
      kept: undefined,
      present: signal,
      restated: undefined,
      earlierBase: false,
    }));
  const day = ({ kept: was, present: is }: RememberedSignal) => was?.on ?? is?.on ?? "";
  return [...kept, ...unkept].sort((a, b) => (day(a) < day(b) ? -1 : 1));
}

function signalNow({ watch }: ServiceChart, { since, on }: KeptSignal): SignalNow {
  const points = watch?.points ?? [];
  const run = points.filter((point) => point.on >= since && point.on <= on);
  const [first, last] = [dayNumber(since), dayNumber(on)];
  const signals = watch?.signals ?? [];
  // the very day, or else the first signal whose run shares a day with the kept one
  const nearest =
    signals.find((signal) => signal.on === on) ??
    signals.find((signal) => dayNumber(signal.since) <= last && dayNumber(signal.on) >= first);
  return {
    events: run.reduce((sum, point) => sum + point.events, 0),
    lineDays: run.reduce((sum, point) => sum + point.lineDays, 0),
    sum: run.at(-1)?.on === on ? run.at(-1)?.sum : undefined,
    on: nearest?.on,
  };
}
