import { entryFaults, eventFaults } from "../../contract/index.ts";
import {
  fieldsOf,
  isAboutAnEvent,
  judgeEntry,
  mayDo,
  practiceSubjects,
  serviceSubject,
  subjectKind,
  type Answer,
  type EventStore,
  type Offer,
  type RegisterEvent,
  type SealedEvent,
} from "../../register/index.ts";
import type { Person, TrailEntry } from "../../store/index.ts";
import { Refusal, type ToldFault } from "../http/refusal.ts";
import type { PatientReader } from "./patient-reader.ts";
import { trace, trailLine, type From, type PeopleParts } from "../people/people-parts.ts";

type RecordParts = PeopleParts & { readonly store: EventStore; readonly patients: PatientReader };

/** Whether a person may copy the whole record; another is not told by a late offer what others wrote. */
const readsAll = ({ roles, units }: Person): boolean => units.length === 0 && mayDo(roles, "copy the record");

/** An offer as it came: each event still to be held against the catalogue. */
export interface UnreadOffer {
  readonly subject: string;
  readonly expectedVersion: number;
  readonly events: readonly unknown[];
}

/**
 * Takes a letter of offers, or turns the whole letter back before anything of it is kept: with every fault, or with
 * every entry this person may not write. The device then sends each entry alone.
 */
export async function takeOffers(
  parts: RecordParts,
  from: From,
  sender: Person,
  unread: readonly UnreadOffer[],
): Promise<readonly Answer[]> {
  const faults = unread.flatMap((offer, at) => offerFaults(offer).map(({ path, code }) => told(`${at}.${path}`, code)));
  if (faults.length > 0) throw new Refusal("faults", { faults });
  const offers = unread as readonly Offer[];
  const wrong = [...notOfHere(offers), ...(await correctedFaults(parts.store, offers))];
  if (wrong.length > 0) throw new Refusal("faults", { faults: wrong });
  const refused = [...(await refusals(parts, sender, offers)), ...(await otherWards(parts, sender, offers))];
  if (refused.length > 0) {
    await trace(
      parts,
      from,
      sender.account,
      "entries refused",
      "",
      [...new Set(refused.map(({ code }) => code))].join(", "),
    );
    throw new Refusal("not-allowed", { faults: refused });
  }
  const answers: Answer[] = [];
  const lines: TrailEntry[] = [];
  try {
    for (const offer of offers) {
      const answer = await parts.store.append(offer);
      answers.push(readsAll(sender) || answer.kind !== "moved on" ? answer : { ...answer, since: [] });
      const detail = `${answer.kind}: ${offer.events.map(({ type }) => type).join(", ")}`;
      lines.push(trailLine(parts, from, sender.account, "entries taken", offer.subject, detail));
    }
  } finally {
    // what was taken is in the trail even where a later offer of the letter met a broken disk
    if (lines.length > 0) await parts.people.trail.add(lines);
  }
  return answers;
}

function offerFaults({ subject, events }: UnreadOffer): readonly ToldFault[] {
  return events.flatMap((event, at): readonly ToldFault[] => {
    const faults = eventFaults(event).map(({ path, code }) =>
      // the name of an unknown field is text a person typed, too
      told(`events.${at}.${code === "unknown-field" ? path.split(".").slice(0, -1).join(".") : path}`, code),
    );
    if (faults.length > 0) return faults;
    return (event as SealedEvent).subject === subject ? [] : [told(`events.${at}.subject`, "contradicts")];
  });
}

/** Invented people and the numbers of a rehearsal never stand among real ones, and one service's record holds one service. */
function notOfHere(offers: readonly Offer[]): readonly ToldFault[] {
  const invented = practiceSubjects(offers.flatMap(({ events }) => events));
  return offers.flatMap(({ subject }, at): readonly ToldFault[] => {
    const another = subjectKind(subject) === "service" && subject !== serviceSubject(false);
    return invented.has(subject) || another ? [told(`${at}.subject`, "contradicts")] : [];
  });
}

/** A corrected value is held against the field it corrects, where the entry is known here. */
async function correctedFaults(store: EventStore, offers: readonly Offer[]): Promise<readonly ToldFault[]> {
  const faults: ToldFault[] = [];
  for (const [at, { subject, events }] of offers.entries()) {
    if (!events.some(({ type }) => type === "ValueCorrected")) continue;
    const known: readonly RegisterEvent[] = [...(await store.readSubject(subject)), ...events];
    for (const [index, { type, data }] of events.entries()) {
      if (type !== "ValueCorrected") continue;
      const about = known.find(({ id }) => id === data["event"]);
      const fields = about && fieldsOf(subjectKind(subject), about.type);
      const path = `${at}.events.${index}.data.value`;
      const field = typeof data["field"] === "string" ? data["field"] : "";
      if (about && !fields) faults.push(told(path, "contradicts"));
      for (const { code } of fields ? entryFaults(fields, { [field]: data["value"] }) : [])
        faults.push(told(path, code));
    }
  }
  return faults;
}

/** Offers about patients of other wards than the person's own, not opened in need, and months of other wards. */
async function otherWards(parts: RecordParts, sender: Person, offers: readonly Offer[]): Promise<readonly ToldFault[]> {
  if (sender.units.length === 0) return [];
  const faults: ToldFault[] = [];
  for (const [at, { subject, events }] of offers.entries()) {
    const named = events.map(({ data }) => (data["patient"] as { readonly value?: unknown } | undefined)?.value);
    const patients = new Set([await parts.patients.patientOf(subject), ...named]);
    const counted = events.filter(({ type }) => type === "WardMonthCounted").map(({ data }) => data["ward"]);
    for (const ward of counted) {
      const name = (ward as { readonly value?: unknown } | undefined)?.value;
      if (typeof name === "string" && !sender.units.includes(name.trim())) faults.push(told(`${at}`, "own-unit-only"));
    }
    for (const patient of patients) {
      if (typeof patient !== "string") continue;
      const ward = await parts.patients.wardOf(patient);
      if (ward === undefined || sender.units.includes(ward)) continue;
      const opened = await parts.people.glass.open(sender.account, patient, parts.now().toISOString());
      if (!opened) faults.push(told(`${at}`, "own-unit-only"));
    }
  }
  return faults;
}

async function refusals(
  { people, store }: PeopleParts & { readonly store: EventStore },
  sender: Person,
  offers: readonly Offer[],
): Promise<readonly ToldFault[]> {
  const named = new Set(offers.flatMap(({ events }) => events.map(({ author }) => author.account)));
  const persons = (await Promise.all([...named].map((account) => people.persons.find(account)))).filter(
    (person): person is Person => person !== undefined && !person.disabled,
  );
  const faults: ToldFault[] = [];
  for (const [at, { subject, events }] of offers.entries()) {
    const corrects = events.some(({ type }) => isAboutAnEvent(type));
    const known: readonly RegisterEvent[] = [...(corrects ? await store.readSubject(subject) : []), ...events];
    for (const [index, event] of events.entries()) {
      const code = judgeEntry(event, sender, {
        about: (id) => known.find((one) => one.id === id),
        holder: (account) => persons.find((person) => person.account === account),
      });
      if (code) faults.push(told(`${at}.events.${index}`, code));
    }
  }
  return faults;
}

const told = (path: string, code: string): ToldFault => ({ path: path.replace(/\.$/, ""), code });
