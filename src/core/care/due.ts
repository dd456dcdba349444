import { addDays, civilDateOf, dayNumber, instantMs, type CivilDate, type Instant } from "../calendar/index.ts";
import type { CarePolicy } from "./care-policy.ts";

/** What was last done at a line, as far as anybody wrote it. */
export interface CareDone {
  /** The day care started: from here a thing never written counts as done at the placing. */
  readonly placedAt: Instant;
  readonly dressing: string | undefined;
  readonly dressedAt: Instant | undefined;
  readonly dressingState: string | undefined;
  readonly stateSeenAt: Instant | undefined;
  readonly connectorAt: Instant | undefined;
  readonly flushedAt: Instant | undefined;
  readonly lastUsedAt: Instant | undefined;
  readonly nextOn: CivilDate | undefined;
  readonly owner: string | undefined;
  readonly place: string | undefined;
}

export const DUE_KINDS = ["dressing", "connector", "flush", "visit", "owner"] as const;
export type DueKind = (typeof DUE_KINDS)[number];

export interface Due {
  readonly what: DueKind;
  /** The day it is due; the day it was found wet or loose where that makes it due at once. */
  readonly on: CivilDate;
  readonly why: "interval" | "dressing not dry and whole" | "named date" | "nobody owns this line";
  /** Keys of the policy rows that set the day. */
  readonly policy: readonly string[];
}

/**
 * When each part of the care of a line is due: the day it was last done and the interval of local policy; at once where
 * the dressing is wet, loose or soiled. Care done early counts from the day it was done, not from the day it was due.
 * Days are the days on the wall where the care was given.
 * Source: transparent 7 days, gauze 2 days, at once if damp, loose or soiled: CDC 2011 and SHEA 2022, from memory; each
 * is a policy row. Example: a transparent dressing of Tue 5 Aug 2025 is due on Tue 12 Aug; gauze on Thu 7 Aug.
 */
export function dueItems(done: CareDone, policy: CarePolicy): readonly Due[] {
  const items: Due[] = [dressingDue(done, policy)];
  const connectorFrom = civilDateOf(done.connectorAt ?? done.placedAt);
  items.push({
    what: "connector",
    on: addDays(connectorFrom, policy.connectorDays),
    why: "interval",
    policy: ["care.connector-days"],
  });
  const flushFrom = later(done.flushedAt ?? done.placedAt, done.lastUsedAt);
  items.push({
    what: "flush",
    on: addDays(civilDateOf(flushFrom), policy.idleFlushDays),
    why: "interval",
    policy: ["care.idle-flush-days"],
  });
  if (done.nextOn !== undefined) items.push({ what: "visit", on: done.nextOn, why: "named date", policy: [] });
  if (!done.owner || !done.place || done.nextOn === undefined) {
    items.push({ what: "owner", on: civilDateOf(done.placedAt), why: "nobody owns this line", policy: [] });
  }
  return items.sort((a, b) => dayNumber(a.on) - dayNumber(b.on));
}

function dressingDue(done: CareDone, policy: CarePolicy): Due {
  const { dressingState, stateSeenAt } = done;
  if (dressingState !== undefined && stateSeenAt && policy.atOnceStates.includes(dressingState)) {
    return {
      what: "dressing",
      on: civilDateOf(stateSeenAt),
      why: "dressing not dry and whole",
      policy: ["care.dressing-at-once"],
    };
  }
  const gauze = done.dressing !== undefined && done.dressing.startsWith("gauze");
  return {
    what: "dressing",
    on: addDays(civilDateOf(done.dressedAt ?? done.placedAt), gauze ? policy.gauzeDays : policy.transparentDays),
    why: "interval",
    policy: [gauze ? "care.gauze-days" : "care.transparent-days"],
  };
}

const later = (a: Instant, b: Instant | undefined): Instant => (b !== undefined && instantMs(b) > instantMs(a) ? b : a);

/** The first day anything is due, as a day number: what a list of a hundred thousand lines is sorted by. */
export function firstDueDay(done: CareDone, policy: CarePolicy): number {
  const first = dueItems(done, policy)[0] as Due;
  return dayNumber(first.on);
}

/** Whether a connector may be changed without another reason: not sooner than the least hours. */
export const connectorMayWait = (changedAt: Instant, now: Instant, policy: CarePolicy): boolean =>
  instantMs(now) - instantMs(changedAt) < policy.connectorLeastHours * 3_600_000;

/** When an administration set must be changed, in milliseconds since 1970. */
export const setDueMs = (kind: keyof CarePolicy["setHours"], startedAt: Instant, policy: CarePolicy): number =>
  instantMs(startedAt) + policy.setHours[kind] * 3_600_000;
