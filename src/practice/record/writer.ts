import { addDays, type CivilDate, type Instant } from "../../core/calendar/index.ts";
import {
  seal,
  type Author,
  type EntryOf,
  type EventType,
  type Recorded,
  type SealedEvent,
  type Subject,
} from "../../register/index.ts";

/** Invented people of an invented service. */
export const PEOPLE = {
  inserter: { initials: "MK", role: "inserter", account: "practice" },
  ward: { initials: "JT", role: "ward nurse", account: "practice" },
  home: { initials: "AO", role: "home nurse", account: "practice" },
  lead: { initials: "RB", role: "lead", account: "practice" },
  lab: { initials: "SV", role: "infection control", account: "practice" },
  stores: { initials: "PN", role: "stores", account: "practice" },
} as const satisfies Readonly<Record<string, Author>>;

/** The name of an invented person, and of what is about that person. */
export const ref = (id: string) => `practice-${id}`;
export const line = (id: string): Subject => `line:${ref(id)}`;

export interface Writer {
  readonly today: CivilDate;
  readonly day: (daysAgo: number) => CivilDate;
  readonly write: <Type extends EventType>(
    subject: Subject,
    when: readonly [daysAgo: number, clock: string],
    type: Type,
    data: EntryOf<Type>,
    author?: Author,
    /** How long after it happened it was written; a late entry is written the next morning. */
    writtenDaysLater?: number,
  ) => void;
  readonly events: readonly SealedEvent[];
}

/** Writes invented events as a service would have written them up to a day. */
export function writer(today: CivilDate, offset: string): Writer {
  const events: SealedEvent[] = [];
  const seen = new Map<Subject, number>();
  const day = (daysAgo: number) => addDays(today, -daysAgo);
  return {
    today,
    day,
    events,
    write: (subject, [daysAgo, clock], type, data, author = PEOPLE.inserter, later = 0) => {
      const version = seen.get(subject) ?? 0;
      seen.set(subject, version + 1);
      events.push(
        seal({
          id: `practice-${subject.replace(":", "-")}-${version + 1}`,
          subject,
          type,
          shape: 1,
          happenedAt: `${day(daysAgo)}T${clock}${offset}` as Instant,
          writtenAt: `${day(daysAgo - later)}T${clock}${offset}` as Instant,
          author,
          device: "practice",
          policyVersion: "practice",
          seen: version,
          data: data as SealedEvent["data"],
        }),
      );
    },
  };
}

/** Measured values, each marked so: what a person would have typed. */
export const measured = <Values extends Readonly<Record<string, unknown>>>(
  values: Values,
): { [Key in keyof Values]: Recorded<Values[Key]> } =>
  Object.fromEntries(Object.entries(values).map(([key, value]) => [key, { value, from: "measured" }])) as {
    [Key in keyof Values]: Recorded<Values[Key]>;
  };
