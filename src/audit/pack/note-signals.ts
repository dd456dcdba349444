import { addDays, civilDateOf, dayNumber, type CivilDate, type Instant } from "../../core/calendar/index.ts";
import { lineDays, NOON } from "../../core/dwell/index.ts";
import {
  evolveHistory,
  initialHistory,
  readHistory,
  seal,
  SERVICE_ROLE,
  serviceMemory,
  serviceSubject,
  signalKey,
  told,
  valueIn,
  type EntryOf,
  type EventStore,
  type History,
  type KeptBase,
  type ServiceMemory,
} from "../../register/index.ts";
import { dwellTable, type FoldRules } from "../dwell-table/index.ts";
import { periodOf, type AuditRules } from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";
import { COMPARED, type Measure } from "../measure/index.ts";
import { monitorService, rememberedSignals, type ServiceChart, type Signal } from "../monitor/index.ts";
import { checkTable } from "../quality/index.ts";
import { signalEntry } from "./memory-entry.ts";
import { basesInForce } from "./time-memory.ts";

/** A signal that stands against a base a person set, and that nobody noted yet. */
interface NewSignal {
  readonly chart: ServiceChart;
  readonly signal: Signal;
  readonly base: KeptBase;
}

const YEAR_DAYS = 365;

/**
 * The signals of whole days before `until` that the service's memory does not hold, of the measures whose base is frozen.
 *   as page 2 of the pack has them: sum, base and decision are the frozen ones, so noting costs no false alarm of its own
 * A kept signal that late entries moved is the same signal, and no new one. Units: days. Holds: any table; none without a
 * base in force or without line-days in the year before. Source: as `monitorService` and `rememberedSignals`.
 */
function newSignals(
  table: AuditTable,
  measures: readonly Measure[],
  memory: ServiceMemory,
  until: CivilDate,
  rules: AuditRules,
): readonly NewSignal[] {
  const bases = basesInForce(memory, measures, until);
  const watched = measures.filter(({ id }) => COMPARED.has(id) && bases[id]);
  if (watched.length === 0) return [];
  const year = periodOf(table, addDays(until, -YEAR_DAYS), until);
  const before = periodOf(table, addDays(year.from, -YEAR_DAYS), year.from);
  const { facts } = checkTable(table, rules.limits, rules.surveillance);
  const stays = facts.flatMap(({ stay }) => (stay ? [stay] : []));
  if (!(lineDays(stays, year, "exact line-days", NOON).days > 0)) return [];
  return monitorService(table, watched, before, year, rules, {}, bases).charts.flatMap((chart) => {
    const base = bases[chart.measure];
    if (!base) return [];
    return rememberedSignals(chart, memory.signals, base.id).flatMap(({ kept, present }) =>
      kept || !present || dayNumber(present.on) >= dayNumber(until) ? [] : [{ chart, signal: present, base }],
    );
  });
}

/** What a noting is made under: the count's rules, the rules a row is folded under, and the policy's name. */
export interface NotingRules extends AuditRules {
  readonly fold: FoldRules;
  readonly policyVersion: string;
}

export interface NotedSignal {
  readonly measure: string;
  readonly on: CivilDate;
  readonly events: number;
}

const TRIES = 5;

/** What a record holds of the service's own numbers; that of the rehearsed service is another. */
export async function serviceHistory(store: Pick<EventStore, "readSubject">): Promise<History> {
  const subject = serviceSubject(false);
  return (await store.readSubject(subject)).reduce(evolveHistory, initialHistory(subject));
}

/**
 * Notes every new signal of a record as an entry of the service itself; gives those that were noted now, none where all
 * are known. Two that note at once cannot write one signal twice: the second finds the memory moved on and reads it again.
 * A signal that a person voided is not noted anew.
 * Holds: any store. Errors: throws where others write the memory at every try. Source: common practice, no source.
 */
export async function noteSignals(
  store: EventStore,
  measures: readonly Measure[],
  rules: NotingRules,
  writer: { readonly now: Instant; readonly newId: () => string; readonly device: string },
): Promise<readonly NotedSignal[]> {
  const subject = serviceSubject(false);
  for (let turn = 0; turn < TRIES; turn += 1) {
    const history = await serviceHistory(store);
    const memory = serviceMemory(history);
    const today = civilDateOf(writer.now);
    // without a base in force nothing can be noted, and the record need not be folded
    if (Object.keys(basesInForce(memory, measures, today)).length === 0) return [];
    const table = await dwellTable(store, { ...rules.fold, policyVersion: rules.policyVersion }, writer.now);
    const written = everWritten(history);
    const fresh = newSignals(table, measures, memory, today, rules).filter(
      ({ chart: { measure }, signal: { on }, base: { id } }) => !written.has(signalKey({ measure, on, base: id })),
    );
    if (fresh.length === 0) return [];
    const events = fresh.map(({ chart, signal, base }, at) =>
      seal({
        id: writer.newId(),
        subject,
        type: "SignalSeen",
        shape: 1,
        happenedAt: writer.now,
        writtenAt: writer.now,
        author: { initials: "service", role: SERVICE_ROLE, account: "" },
        device: writer.device,
        policyVersion: rules.policyVersion,
        seen: history.version + at,
        data: { ...signalEntry(chart, signal, base, rules.policyVersion), firstSeenOn: told(today) },
      }),
    );
    const answer = await store.append({ subject, expectedVersion: history.version, events });
    if (answer.kind === "accepted")
      return fresh.map(({ chart: { measure }, signal: { on, events: seen } }) => ({ measure, on, events: seen }));
    if (answer.kind === "refused") throw new Error(`the record refused a signal: ${answer.code}`);
  }
  throw new Error("the service's memory is written by another process at every try; ask again");
}

/** Every signal that was ever written, voided ones too: what a person took away is not put back by a clock. */
const everWritten = (history: History): ReadonlySet<string> =>
  new Set(
    readHistory(history).flatMap(({ event, entry }) => {
      if (event.type !== "SignalSeen") return [];
      const said = entry as EntryOf<"SignalSeen">;
      const [measure, on, base] = [valueIn(said.measure), valueIn(said.signalOn), valueIn(said.base)];
      return measure && on && base ? [signalKey({ measure, on, base })] : [];
    }),
  );
