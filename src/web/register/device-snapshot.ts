import type { Instant } from "../../core/calendar/index.ts";
import {
  clockSentence,
  sayBrokenChain,
  sayNotKept,
  sayNothingKept,
  sayServerOlder,
  sayUnreadable,
} from "../../language/index.ts";
import {
  deviceHistories,
  emptyDevice,
  practiceSubjects,
  unseenDecisions,
  type DeviceChange,
  type DeviceRecord,
  type History,
  type SealedEvent,
  type StoredEvent,
  type Subject,
  type UnseenDecision,
} from "../../register/index.ts";
import type { Contact, DeviceLock } from "./register.ts";
import type { RoundEnd } from "./sync-round.ts";
import type { DeviceNotes } from "./vault/device-notes.ts";

/** How the device stands, beside what its log tells. */
export interface DeviceStanding {
  readonly ready: boolean;
  readonly hidden: boolean;
  readonly keepsNothing: boolean;
  readonly unreadable: boolean;
  readonly end: RoundEnd | undefined;
  readonly notes: DeviceNotes | undefined;
  readonly clockBehind: Instant | undefined;
}

/** What a page sees of the device at one moment. */
export interface DeviceSnapshot {
  readonly ready: boolean;
  readonly locked: boolean;
  readonly lock: DeviceLock["state"];
  readonly people: readonly string[];
  readonly histories: ReadonlyMap<Subject, History>;
  readonly record: DeviceRecord;
  /** What waits and may leave the device: everything but entries about practice patients. */
  readonly toSend: readonly SealedEvent[];
  /** Whether the invented patients are shown. */
  readonly rehearsing: boolean;
  readonly unsent: number;
  readonly contact: Contact;
  readonly lastContact: Instant | undefined;
  readonly trouble: string | undefined;
  readonly device: string;
  readonly notes: DeviceNotes | undefined;
  readonly unseen: readonly UnseenDecision[];
  readonly unkept: readonly SealedEvent[];
}

interface Readable {
  readonly record: DeviceRecord;
  readonly unkept: readonly DeviceChange[];
}

export function deviceSnapshot(
  log: Readable,
  vault: { readonly state: "clear" | "locked" | "open"; readonly people: readonly string[] } | undefined,
  standing: DeviceStanding,
  practice: readonly StoredEvent[],
  before: DeviceSnapshot | undefined,
): DeviceSnapshot {
  const { record } = log;
  const { notes } = standing;
  const lock =
    vault?.state === "locked" ? "shut" : vault?.state === "open" ? (standing.hidden ? "hidden" : "open") : "clear";
  const same = before?.record === record && before.lock === lock;
  const { toSend, rehearsing } = same ? before : apart(record, lock);
  const histories = same
    ? before.histories
    : deviceHistories(
        rehearsing ? { ...record, known: [...practice, ...record.known] } : { ...record, queue: toSend },
        before?.histories,
      );
  const unkept = eventsNotKept(log);
  return {
    ready: standing.ready,
    locked: lock === "shut" || lock === "hidden",
    lock,
    people: vault?.people ?? [],
    histories,
    record,
    toSend,
    rehearsing,
    unsent: lock === "shut" ? Math.max(notes?.unsent ?? 0, toSend.length) : toSend.length,
    contact: contactOf(standing, record),
    lastContact: notes?.lastContact,
    trouble: troubleOf(standing, unkept.length),
    device: notes?.device ?? "device",
    notes,
    unseen: histories === before?.histories ? before.unseen : [...histories.values()].flatMap(rememberedUnseen),
    unkept,
  };
}

/**
 * What waits and is real, and whether the practice patients are shown: only on a device without a secret that knows no
 * real patient. From then on an invented line can never stand between real ones.
 */
function apart(
  record: DeviceRecord,
  lock: DeviceLock["state"],
): { readonly toSend: readonly SealedEvent[]; readonly rehearsing: boolean } {
  const invented = practiceSubjects(record.queue);
  const toSend = invented.size === 0 ? record.queue : record.queue.filter(({ subject }) => !invented.has(subject));
  return { toSend, rehearsing: lock === "clear" && toSend.length === 0 && record.known.length === 0 };
}

const unseenBy = new WeakMap<History, readonly UnseenDecision[]>();

function rememberedUnseen(history: History): readonly UnseenDecision[] {
  const known = unseenBy.get(history) ?? unseenDecisions(history);
  unseenBy.set(history, known);
  return known;
}

/** Entries that live in this tab only; one the server has taken is kept there. */
function eventsNotKept({ unkept, record }: Readable): readonly SealedEvent[] {
  const written = unkept.flatMap((change) => (change.kind === "written" ? change.events : []));
  if (written.length === 0) return [];
  const known = new Set((record ?? emptyDevice).known.map(({ id }) => id));
  return written.filter(({ id }) => !known.has(id));
}

function contactOf({ end, notes }: DeviceStanding, { returned }: DeviceRecord): Contact {
  const since = notes?.lastContact;
  if (returned.length > 0) return { kind: "server is older", told: sayServerOlder(returned.length) };
  if (end?.kind === "sign in") return { kind: "sign in again" };
  if (end?.kind === "no copy" || end?.kind === "secret first") return end;
  if (end?.kind === "in touch" && since !== undefined) return { kind: "in touch", at: since };
  if (end?.kind === "unreachable" || since !== undefined) return { kind: "out of touch", since };
  return { kind: "alone" };
}

function troubleOf(standing: DeviceStanding, unkept: number): string | undefined {
  if (standing.keepsNothing) return sayNothingKept;
  if (standing.unreadable) return sayUnreadable;
  if (unkept > 0) return sayNotKept(unkept);
  if (standing.end?.kind === "does not hold together") return sayBrokenChain(standing.end.position);
  return standing.clockBehind === undefined ? undefined : clockSentence(standing.clockBehind);
}
