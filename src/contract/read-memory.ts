import {
  evolveHistory,
  fieldsOf,
  initialHistory,
  serviceMemory,
  type History,
  type SealedEvent,
  type ServiceMemory,
  type Subject,
} from "../register/index.ts";
import { shown, type Fault } from "./fault.ts";
import { entryFaults, eventFaults } from "./read-event.ts";

export type MemoryReading =
  | { readonly kind: "memory"; readonly memory: ServiceMemory }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] };

/** What a store adds to an event when it takes it; the rest is the writer's, and is held to its seal. */
const PLACE = new Set(["position", "version", "chainHash"]);

/**
 * A service's memory from the events of its record, as JSON: a list, or `{ "events": [...] }` as the server answers. Events
 * of lines, people and lots are passed over; each event of the service is read whole, seal included, or not at all.
 */
export function readMemory(text: string): MemoryReading {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return { kind: "faults", faults: [wrong("", text.slice(0, 40))] };
  }
  const list = Array.isArray(read) ? read : (read as { readonly events?: unknown } | null)?.events;
  if (!Array.isArray(list)) return { kind: "faults", faults: [wrong("", read)] };
  const own = list.map((event: unknown) => ({ event: sealedPart(event), subject: subjectOf(event) }));
  const of = own.filter(({ subject }) => subject === undefined || subject.startsWith("service:"));
  const faults = of.flatMap(({ event }, at) =>
    eventFaults(event).map((fault) => ({ ...fault, path: `${at}.${fault.path}` })),
  );
  if (faults.length > 0) return { kind: "faults", faults };
  const together = [...new Set(of.map((one) => one.subject))];
  const odd = [...faultsTogether(of.map(({ event }) => event as SealedEvent)), ...outOfOrder(list)];
  // an invented memory beside a real one would be printed as real
  if (together.length > 1) odd.push({ ...wrong("", together.join(", ")), code: "contradicts", rule: "one service" });
  if (odd.length > 0) return { kind: "faults", faults: odd };
  const subject = (of[0]?.subject ?? "service:here") as Subject;
  const history = of
    .filter((one) => one.subject === subject)
    .reduce<History>(
      (before, { event }, at) =>
        evolveHistory(before, { ...(event as SealedEvent), position: at + 1, version: at + 1, chainHash: "" }),
      initialHistory(subject),
    );
  return { kind: "memory", memory: serviceMemory(history) };
}

/** What no event shows by itself: the same one twice, and a corrected value its field would not take. */
function faultsTogether(events: readonly SealedEvent[]): Fault[] {
  const byId = new Map<string, SealedEvent>();
  return events.flatMap((event, at): readonly Fault[] => {
    const { id, type, data } = event;
    const named = (key: string): string => (typeof data[key] === "string" ? data[key] : "");
    if (byId.has(id)) return [{ path: `${at}.id`, code: "twice", found: shown(id), rule: "each event once" }];
    byId.set(id, event);
    if (type !== "ValueCorrected") return [];
    const about = byId.get(named("event"));
    const fields = about && fieldsOf("service", about.type);
    const path = `${at}.data.value`;
    if (!fields) return [{ path, code: "contradicts", found: shown(data["event"]), rule: "an entry before it" }];
    return entryFaults(fields, { [named("field")]: data["value"] }, path);
  });
}

/** The last of two bases is in force: a list whose places were changed would put an old one back. */
function outOfOrder(list: readonly unknown[]): readonly Fault[] {
  const places = list.map((event) => (event as { readonly position?: unknown } | null)?.position);
  return places.flatMap((place, at): readonly Fault[] => {
    const before = places[at - 1];
    if (typeof place !== "number" || typeof before !== "number" || place > before) return [];
    return [{ path: `${at}.position`, code: "out-of-order", found: shown(place), rule: "places that rise" }];
  });
}

const wrong = (path: string, found: unknown): Fault => ({
  path,
  code: "wrong-type",
  found: shown(found),
  rule: "a list of events of the record, as JSON",
});

const subjectOf = (event: unknown): string | undefined => {
  const subject = (event as { readonly subject?: unknown } | null)?.subject;
  return typeof subject === "string" ? subject : undefined;
};

const sealedPart = (event: unknown): unknown =>
  typeof event === "object" && event !== null && !Array.isArray(event)
    ? Object.fromEntries(Object.entries(event).filter(([key]) => !PLACE.has(key)))
    : event;
