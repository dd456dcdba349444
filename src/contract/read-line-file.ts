import {
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  subjectKind,
  type History,
  type LineView,
  type PatientView,
  type SealedEvent,
  type StoredEvent,
  type Subject,
} from "../register/index.ts";
import { shown, type Fault } from "./fault.ts";
import { eventFaults } from "./read-event.ts";
import { parsedJson, type Faults } from "./read-json.ts";

const FROM_A_STORE = ["position", "version", "chainHash"] as const;

/** Lines out of a file of events, each with its person. */
export interface LineFile {
  readonly kind: "read";
  readonly lines: readonly { readonly line: LineView; readonly patient: PatientView | undefined }[];
  readonly histories: ReadonlyMap<Subject, History>;
}

/**
 * Reads LINE.json: a list of sealed events, or an export that has them under "events"; places a store gave are taken off
 * and given anew in the order of the file. A file may hold no line at all: a form to be filled in needs none. Every fault of every event is told, by its place in the list.
 */
export function readLineFile(text: string): LineFile | Faults {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const events = listOf(parsed.json);
  if (!events) return faults({ path: "", code: "wrong-type", found: shown(parsed.json), rule: "a list of events" });
  const found = events.flatMap((event, at) =>
    eventFaults(withoutPlace(event)).map((fault) => ({
      ...fault,
      path: fault.path === "" ? `events.${at}` : `events.${at}.${fault.path}`,
    })),
  );
  if (found.length > 0) return { kind: "faults", faults: found };
  const histories = historiesOf(events.map(withoutPlace) as readonly SealedEvent[]);
  const lines = [...histories.values()]
    .filter(({ subject }) => subjectKind(subject) === "line")
    .map((history) => {
      const line = lineView(history);
      const person = histories.get(`patient:${line.patient ?? ""}`);
      return { line, patient: person && patientView(person) };
    });
  return { kind: "read", lines, histories };
}

const faults = (fault: Fault): Faults => ({ kind: "faults", faults: [fault] });

function listOf(json: unknown): readonly unknown[] | undefined {
  if (Array.isArray(json)) return json;
  if (typeof json !== "object" || json === null || !("events" in json)) return undefined;
  return Array.isArray(json.events) ? json.events : undefined;
}

/** A store's place is not part of what its writer sealed. */
function withoutPlace(event: unknown): unknown {
  if (typeof event !== "object" || event === null || Array.isArray(event)) return event;
  return Object.fromEntries(
    Object.entries(event).filter(([key]) => !(FROM_A_STORE as readonly string[]).includes(key)),
  );
}

function historiesOf(events: readonly SealedEvent[]): ReadonlyMap<Subject, History> {
  const histories = new Map<Subject, History>();
  for (const [at, event] of events.entries()) {
    const history = histories.get(event.subject) ?? initialHistory(event.subject);
    const stored: StoredEvent = { ...event, position: at + 1, version: history.version + 1, chainHash: "" };
    histories.set(event.subject, evolveHistory(history, stored));
  }
  return histories;
}
