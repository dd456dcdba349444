import type { Json, RegisterEvent, StoredEvent } from "./event/index.ts";
import type { Entry, Fields, Recorded } from "./field/index.ts";
import { lineEvents } from "./line/line-events.ts";
import { lotEvents } from "./lot/lot-events.ts";
import { patientEvents, serviceEvents } from "./patient/patient-events.ts";
import { referralEvents } from "./referral/referral-events.ts";
import { memoryEvents } from "./service/memory-events.ts";

/** Every kind of event that says something, by the subject it happens to, with the fields it may say it in. */
export const eventCatalogue = {
  patient: patientEvents,
  referral: referralEvents,
  line: lineEvents,
  lot: lotEvents,
  service: { ...serviceEvents, ...memoryEvents },
} as const;

export type CataloguedSubject = keyof typeof eventCatalogue;
type Catalogued = typeof patientEvents &
  typeof referralEvents &
  typeof lineEvents &
  typeof lotEvents &
  typeof serviceEvents &
  typeof memoryEvents;
export type EventType = keyof Catalogued;
/** What an event of a type says. */
export type EntryOf<Type extends EventType> = Entry<Catalogued[Type]>;

/**
 * What can be said about an event that was already written, whatever its subject.
 *   ValueCorrected  another value for one field; the old one stays, struck
 *   EventVoided     it never happened, or not to this subject; it stays and counts nowhere
 */
export interface Correction {
  readonly event: string;
  readonly field: string;
  readonly value: Recorded<Json>;
  readonly why: string;
}
export interface Voiding {
  readonly event: string;
  readonly why: string;
}
export const ABOUT_EVENTS = ["ValueCorrected", "EventVoided"] as const;
export type AboutEvent = (typeof ABOUT_EVENTS)[number];

export const isAboutAnEvent = (type: string): type is AboutEvent => (ABOUT_EVENTS as readonly string[]).includes(type);

/** The fields of a type of event at a kind of subject; undefined when that subject has no such event. */
export function fieldsOf(kind: string, type: string): Fields | undefined {
  if (!Object.hasOwn(eventCatalogue, kind)) return undefined;
  const types = eventCatalogue[kind as CataloguedSubject] as Readonly<Record<string, Fields>>;
  return Object.hasOwn(types, type) ? types[type] : undefined;
}

export const subjectKind = (subject: string): string => subject.slice(0, subject.indexOf(":"));

/** What an event says, under the type the caller has checked it to be. */
export const entryOf = <Type extends EventType>(event: RegisterEvent | StoredEvent, _type: Type): EntryOf<Type> =>
  event.data as EntryOf<Type>;
