import { dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { actionBefore, baseInForce, type KeptBase, type KeptChange, type ServiceMemory } from "../../register/index.ts";
import type { Period } from "../figure/index.ts";
import { rememberedSignals, type FrozenBase, type RememberedSignal, type ServiceMonitor } from "../monitor/index.ts";
import type { MonthAction } from "./month-action.ts";

/** A change of practice as page 2 marks it: by a number, and in words beside. */
export interface MarkedChange extends KeptChange {
  readonly number: number;
}

/** What the service wrote of its own numbers, as far as it belongs on page 2. */
export interface TimeMemory {
  readonly changes: readonly MarkedChange[];
  /** By measure; a measure without one is watched by a base that moves on with every month. */
  readonly bases: Readonly<Record<string, KeptBase>>;
  /** Of every chart, those of the year drawn. */
  readonly signals: readonly RememberedSignal[];
}

/** The bases in force for the days up to an end; one that only begins to watch after it is not yet used. */
export function basesInForce(
  memory: ServiceMemory | undefined,
  measures: readonly { readonly id: string }[],
  until: CivilDate,
): Readonly<Record<string, KeptBase & FrozenBase>> {
  if (!memory) return {};
  return Object.fromEntries(
    measures.flatMap(({ id }) => {
      const base = baseInForce(memory, id);
      return base && dayNumber(base.to) < dayNumber(until) ? [[id, base] as const] : [];
    }),
  );
}

/** Page 2's memory: changes inside the year by number, and every signal of the year, kept or seen now. */
export function timeMemory(
  memory: ServiceMemory,
  monitor: ServiceMonitor | undefined,
  bases: Readonly<Record<string, KeptBase>>,
  year: Pick<Period, "from" | "to">,
): TimeMemory {
  const inYear = (on: CivilDate): boolean => on >= year.from && on < year.to;
  return {
    changes: memory.changes.filter(({ on }) => inYear(on)).map((change, at) => ({ ...change, number: at + 1 })),
    bases,
    signals: (monitor?.charts ?? []).flatMap((chart) =>
      rememberedSignals(chart, memory.signals, bases[chart.measure]?.id).filter(({ kept, present }) =>
        inYear((kept?.on ?? present?.on) as CivilDate),
      ),
    ),
  };
}

/** Last month's action as the record has it; undefined while none was agreed on. */
export function actionOfRecord(memory: ServiceMemory | undefined, month: CivilDate): MonthAction | undefined {
  const action = memory && actionBefore(memory, month);
  return (
    action && {
      what: action.action,
      owner: action.ownerRole,
      dueOn: action.dueOn,
      measure: action.measure,
      done: action.outcome?.outcome === "done",
      ...(action.outcome && { outcome: action.outcome }),
    }
  );
}
