import type { CivilDate } from "../../core/calendar/index.ts";
import { measured, textHash, told, type EntryOf, type KeptBase } from "../../register/index.ts";
import { periodOf, type AuditRules } from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { monitorService, type ServiceChart, type Signal } from "../monitor/index.ts";

/** A base a person may set for a measure, or why none can be had from these days. */
export interface ProposedBase {
  readonly measure: string;
  /** All of it but the name and the reason, which only a person gives. */
  readonly entry: Omit<EntryOf<"WatchBaseSet">, "by" | "why"> | undefined;
  readonly noAlarm: ServiceChart["noAlarm"];
}

const PER = 1000;

/**
 * The bases that a span of days would give, for all watched measures under the service's one false-alarm budget.
 *   own base: events and line-days of the span; an agreed rate per 1000 days replaces both, as `monitorService` has it
 * Units: line-days of each measure's clock. Holds: the span before `until`, both with line-days, else RangeError.
 * Source: as `monitorService`. Example: 24 clots in 15,000 line-days of 2025, watched from 1 January 2026.
 */
export function proposedBases(
  table: AuditTable,
  measures: readonly Measure[],
  span: { readonly from: CivilDate; readonly to: CivilDate; readonly until: CivilDate },
  rules: AuditRules,
  targets: Readonly<Record<string, number>>,
  ruleVersion: string,
): readonly ProposedBase[] {
  const base = periodOf(table, span.from, span.to);
  const now = periodOf(table, span.to, span.until);
  return monitorService(table, measures, base, now, rules, targets).charts.map(
    ({ measure, plan, noAlarm, target }): ProposedBase => {
      const { events, perThousand } = plan.base;
      if (noAlarm || !plan.alarm || !(perThousand > 0)) return { measure, entry: undefined, noAlarm };
      return {
        measure,
        noAlarm,
        entry: {
          measure: told(measure),
          baseFrom: told(span.from),
          baseTo: told(span.to),
          baseEvents: measured(events),
          baseLineDays: measured((PER * events) / perThousand),
          ...(target === undefined ? {} : { targetPerThousand: told(target) }),
          decision: measured(plan.alarm.decision),
          ruleVersion: told(ruleVersion),
        },
      };
    },
  );
}

/** A signal as the record keeps it: its numbers, and the base and decision it was seen under. */
export function signalEntry(
  { watch }: Pick<ServiceChart, "watch">,
  signal: Signal,
  base: KeptBase,
  ruleVersion: string,
): EntryOf<"SignalSeen"> {
  const at = watch?.points.find(({ on }) => on === signal.on);
  return {
    measure: told(base.measure),
    signalOn: measured(signal.on),
    base: told(base.id),
    since: measured(signal.since),
    events: measured(signal.events),
    lineDays: measured(signal.lineDays),
    expected: measured(signal.expected),
    sum: measured(at?.sum ?? 0),
    baseEvents: measured(base.events),
    baseLineDays: measured(base.lineDays),
    decision: measured(base.decision),
    ruleVersion: told(ruleVersion),
    dataFingerprint: told(fingerprintOf(watch, signal)),
  };
}

const MOST_DIGITS = 6;

/** SHA-256 over the days of a signal's run, each with its events and its line-days to a millionth, in hexadecimal. */
function fingerprintOf(watch: ServiceChart["watch"], { since, on }: Signal): string {
  const run = (watch?.points ?? []).filter((point) => point.on >= since && point.on <= on);
  return textHash(run.map((point) => `${point.on} ${point.events} ${point.lineDays.toFixed(MOST_DIGITS)}`).join("\n"));
}
