import { addDays, civilDateOf, parseCivilDate, type CivilDate, type Instant } from "../../core/calendar/index.ts";
import type { EntryOf } from "../catalogue.ts";
import type { Author, Subject } from "../event/index.ts";
import { confirmedIn, type Recorded } from "../field/index.ts";
import { readHistory, standing, type Happening, type History } from "../fold/index.ts";
import { MOST_DECISION } from "./memory-events.ts";

/** The one service whose record this is; its invented twin never leaves the device. */
export const serviceSubject = (rehearsing: boolean): Subject => (rehearsing ? "service:practice-here" : "service:here");

export interface Written {
  /** Of the event that said it. */
  readonly id: string;
  readonly at: Instant;
  readonly author: Author;
}

export interface KeptBase extends Written {
  readonly measure: string;
  readonly from: CivilDate;
  readonly to: CivilDate;
  readonly events: number;
  readonly lineDays: number;
  readonly targetPerThousand: number | undefined;
  readonly decision: number;
  readonly ruleVersion: string;
  readonly by: string;
  readonly why: string;
}

export interface KeptLook extends Written {
  readonly by: string;
  readonly found: string;
  readonly words: string;
  readonly action: string;
}

/** A signal as it stood on the day it was kept. */
export interface KeptSignal extends Written {
  readonly measure: string;
  readonly on: CivilDate;
  readonly since: CivilDate;
  readonly events: number;
  readonly lineDays: number;
  readonly expected: number;
  readonly sum: number;
  readonly base: string;
  readonly baseEvents: number;
  readonly baseLineDays: number;
  readonly decision: number;
  readonly ruleVersion: string;
  /** The day it was first noted, by a person or by the service itself. */
  readonly firstSeenOn: CivilDate;
  readonly dataFingerprint: string;
  readonly looks: readonly KeptLook[];
}

export interface KeptAction extends Written {
  readonly month: CivilDate;
  readonly action: string;
  readonly ownerRole: string;
  readonly dueOn: CivilDate;
  readonly measure: string;
  readonly outcome: { readonly outcome: string; readonly words: string } | undefined;
}

export interface KeptChange extends Written {
  readonly on: CivilDate;
  readonly kind: string;
  readonly words: string;
}

export interface ServiceMemory {
  readonly subject: Subject;
  readonly version: number;
  /** Every base that was ever set, in the order of setting; the last of a measure is in force. */
  readonly bases: readonly KeptBase[];
  readonly signals: readonly KeptSignal[];
  readonly actions: readonly KeptAction[];
  readonly changes: readonly KeptChange[];
}

/** "2026-04" as the first day of that month; undefined for anything else. */
export const monthOf = (text: string | undefined): CivilDate | undefined =>
  text !== undefined && /^\d{4}-\d{2}$/.test(text) ? parseCivilDate(`${text}-01`) : undefined;

/** What makes one signal: measure, day and base. */
export const signalKey = (signal: { readonly measure: string; readonly on: string; readonly base: string }): string =>
  `${signal.measure} ${signal.on} ${signal.base}`;

/**
 * What the service wrote of its own numbers, as it reads today: corrections in place, voided entries left out. The first
 * of two entries of one signal stands; a look finds its signal by measure, day and base. Entries that lack what they
 * must have are left out here and stay in the history.
 */
export function serviceMemory(history: History): ServiceMemory {
  const bases: KeptBase[] = [];
  const signals = new Map<string, KeptSignal>();
  const looks: (KeptLook & { readonly key: string })[] = [];
  const actions = new Map<string, KeptAction>();
  const changes: KeptChange[] = [];
  for (const happening of standing(readHistory(history))) {
    const { type } = happening.event;
    if (type === "WatchBaseSet") bases.push(...baseOf(happening));
    else if (type === "SignalSeen")
      for (const signal of signalOf(happening)) {
        const key = signalKey(signal);
        if (!signals.has(key)) signals.set(key, signal);
      }
    else if (type === "SignalLookedAt") looks.push(...lookOf(happening));
    else if (type === "ActionAgreed") for (const action of actionOf(happening)) actions.set(action.month, action);
    else if (type === "ActionOutcomeWritten") addOutcome(actions, happening);
    else if (type === "PracticeChanged") changes.push(...changeOf(happening));
  }
  return {
    subject: history.subject,
    version: history.version,
    bases,
    signals: [...signals]
      .map(([key, signal]) => ({
        ...signal,
        looks: looks.filter((look) => look.key === key).map(({ key: _key, ...look }) => look),
      }))
      .sort((a, b) => (a.on < b.on ? -1 : 1)),
    actions: [...actions.values()].sort((a, b) => (a.month < b.month ? -1 : 1)),
    changes: changes.sort((a, b) => (a.on < b.on ? -1 : 1)),
  };
}

/** The base of a measure in force; undefined while nobody set one. */
export const baseInForce = ({ bases }: Pick<ServiceMemory, "bases">, measure: string): KeptBase | undefined =>
  bases.findLast((base) => base.measure === measure);

/** The action a month's pack opens with: what the meeting of the month before agreed on. */
export const actionBefore = ({ actions }: Pick<ServiceMemory, "actions">, month: CivilDate): KeptAction | undefined => {
  const agreedIn = addDays(`${month.slice(0, 7)}-01` as CivilDate, -1).slice(0, 7);
  return actions.find((action) => action.month.startsWith(agreedIn));
};

const written = ({ event }: Happening): Written => ({ id: event.id, at: event.happenedAt, author: event.author });
const day = (recorded: Recorded<string> | undefined): CivilDate | undefined =>
  parseCivilDate(confirmedIn(recorded) ?? "");

function baseOf(happening: Happening): readonly KeptBase[] {
  const said = happening.entry as EntryOf<"WatchBaseSet">;
  const [from, to] = [day(said.baseFrom), day(said.baseTo)];
  const { measure, baseEvents, baseLineDays, decision } = values(said);
  const [by, why] = [confirmedIn(said.by), confirmedIn(said.why)];
  // a base nobody gave a reason for was not set
  if (!measure || !from || !to || !(from < to) || !baseEvents || !baseLineDays || !decision || !by || !why) return [];
  if (!canBeWatched({ baseEvents, baseLineDays, decision })) return [];
  return [
    {
      ...written(happening),
      measure,
      from,
      to,
      events: baseEvents,
      lineDays: baseLineDays,
      targetPerThousand: confirmedIn(said.targetPerThousand),
      decision,
      ruleVersion: confirmedIn(said.ruleVersion) ?? "",
      by,
      why,
    },
  ];
}

/**
 * Whether a sum can run on a base at all: no more than one event a line-day, and a decision whose run length is known.
 * Example: 22 events in 1,200 days with a decision of 3 can, 22 in 12 cannot.
 */
export const canBeWatched = (base: {
  readonly baseEvents: number;
  readonly baseLineDays: number;
  readonly decision: number;
}): boolean => base.baseEvents <= base.baseLineDays && base.decision > 0 && base.decision <= MOST_DECISION;

const values = (said: EntryOf<"WatchBaseSet"> | EntryOf<"SignalSeen">) => ({
  measure: confirmedIn(said.measure),
  baseEvents: confirmedIn(said.baseEvents),
  baseLineDays: confirmedIn(said.baseLineDays),
  decision: confirmedIn(said.decision),
});

function signalOf(happening: Happening): readonly KeptSignal[] {
  const said = happening.entry as EntryOf<"SignalSeen">;
  const [on, since] = [day(said.signalOn), day(said.since)];
  const { measure, baseEvents, baseLineDays, decision } = values(said);
  const [base, events] = [confirmedIn(said.base), confirmedIn(said.events)];
  if (!measure || !on || !since || !base || !events || !baseEvents || !baseLineDays || !decision) return [];
  return [
    {
      ...written(happening),
      measure,
      on,
      since,
      events,
      lineDays: confirmedIn(said.lineDays) ?? 0,
      expected: confirmedIn(said.expected) ?? 0,
      sum: confirmedIn(said.sum) ?? 0,
      base,
      baseEvents,
      baseLineDays,
      decision,
      ruleVersion: confirmedIn(said.ruleVersion) ?? "",
      firstSeenOn: day(said.firstSeenOn) ?? civilDateOf(happening.event.happenedAt),
      dataFingerprint: confirmedIn(said.dataFingerprint) ?? "",
      looks: [],
    },
  ];
}

function lookOf(happening: Happening): readonly (KeptLook & { readonly key: string })[] {
  const said = happening.entry as EntryOf<"SignalLookedAt">;
  const [measure, on, base, found] = [
    confirmedIn(said.measure),
    day(said.signalOn),
    confirmedIn(said.base),
    confirmedIn(said.found),
  ];
  if (!measure || !on || !base || !found) return [];
  return [
    {
      ...written(happening),
      key: signalKey({ measure, on, base }),
      by: confirmedIn(said.by) ?? "",
      found,
      words: confirmedIn(said.words) ?? "",
      action: confirmedIn(said.action) ?? "",
    },
  ];
}

function actionOf(happening: Happening): readonly KeptAction[] {
  const said = happening.entry as EntryOf<"ActionAgreed">;
  const [month, dueOn] = [monthOf(confirmedIn(said.month)), day(said.dueOn)];
  const [action, ownerRole, measure] = [
    confirmedIn(said.action),
    confirmedIn(said.ownerRole),
    confirmedIn(said.measure),
  ];
  if (!month || !dueOn || !action || !ownerRole || !measure) return [];
  return [{ ...written(happening), month, action, ownerRole, dueOn, measure, outcome: undefined }];
}

function addOutcome(actions: Map<string, KeptAction>, happening: Happening): void {
  const said = happening.entry as EntryOf<"ActionOutcomeWritten">;
  const [month, outcome] = [monthOf(confirmedIn(said.month)), confirmedIn(said.outcome)];
  const action = month && actions.get(month);
  if (action && outcome)
    actions.set(action.month, { ...action, outcome: { outcome, words: confirmedIn(said.words) ?? "" } });
}

function changeOf(happening: Happening): readonly KeptChange[] {
  const said = happening.entry as EntryOf<"PracticeChanged">;
  const [on, words] = [day(said.changedOn), confirmedIn(said.words)];
  if (!on || !words) return [];
  return [{ ...written(happening), on, kind: confirmedIn(said.kindOfChange) ?? "other", words }];
}
