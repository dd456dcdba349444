import {
  chainEntry,
  chainHash,
  CHAIN_START,
  sealedText,
  textHash,
  type Answer,
  type Head,
  type Offer,
  type SealedEvent,
  type StoredEvent,
} from "../../register/index.ts";
import type { SqlConnection } from "../sql/index.ts";
import { insertEvents, selectEvents, type NewRow } from "./event-row.ts";

/** An offer whose seals were checked, with the text of each event. */
export interface CheckedOffer {
  readonly offer: Offer;
  readonly texts: readonly { readonly event: SealedEvent; readonly text: string }[];
}

/** Recomputes every seal before the store is touched. Throws a RangeError for an event of another subject. */
export function checkOffer(offer: Offer): CheckedOffer | (Answer & { readonly kind: "refused" }) {
  const texts: { event: SealedEvent; text: string }[] = [];
  for (const event of offer.events) {
    if (event.subject !== offer.subject) throw new RangeError(`event ${event.id} belongs to ${event.subject}`);
    const text = sealedText(event);
    if (textHash(text) !== event.contentHash) return { kind: "refused", code: "wrong-content-hash", id: event.id };
    texts.push({ event, text });
  }
  return { offer, texts };
}

export async function readHead(connection: SqlConnection): Promise<Head> {
  const [last] = await connection.all<{ position: number; chain_hash: string }>(
    "SELECT position, chain_hash FROM event ORDER BY position DESC LIMIT 1",
  );
  return last ? { position: last.position, chainHash: last.chain_hash } : { position: 0, chainHash: CHAIN_START };
}

const marks = (values: readonly unknown[]) => values.map(() => "?").join(", ");

const SUBJECTS_AT_ONCE = 50;

/** One look at the end of each subject's index; grouped by subject, both databases would read all of it. */
const lastVersions = (inside: SqlConnection, subjects: readonly string[]) =>
  inside.all<{ subject: string; version: number }>(
    subjects
      .map(() => "SELECT CAST(? AS TEXT) AS subject, COALESCE(MAX(version), 0) AS version FROM event WHERE subject = ?")
      .join(" UNION ALL "),
    subjects.flatMap((subject) => [subject, subject]),
  );

/** Decides a group of offers one after the other and writes what it accepts. Must run inside a transaction. */
export async function takeOffers(inside: SqlConnection, group: readonly CheckedOffer[]): Promise<readonly Answer[]> {
  // one order for all servers: whoever holds this lock is the only one to give out places until its commit
  if (inside.dialect === "postgresql") await inside.all("SELECT pg_advisory_xact_lock(8105440)");
  let head = await readHead(inside);
  const ids = [...new Set(group.flatMap(({ texts }) => texts.map(({ event }) => event.id)))];
  const subjects = [...new Set(group.map(({ offer }) => offer.subject))];
  const known = new Map<string, StoredEvent>();
  for (let from = 0; from < ids.length; from += 1000) {
    const part = ids.slice(from, from + 1000);
    for (const event of await selectEvents(inside, `id IN (${marks(part)})`, part)) known.set(event.id, event);
  }
  const versions = new Map<string, number>();
  for (let from = 0; from < subjects.length; from += SUBJECTS_AT_ONCE)
    for (const { subject, version } of await lastVersions(inside, subjects.slice(from, from + SUBJECTS_AT_ONCE)))
      versions.set(subject, version);
  const fresh: NewRow[] = [];

  const place = (event: SealedEvent, text: string): void => {
    const at = { position: head.position + 1, version: (versions.get(event.subject) ?? 0) + 1 };
    const link = chainHash(head.chainHash, chainEntry(event, at));
    const said = { ...(JSON.parse(text) as SealedEvent), contentHash: event.contentHash };
    const stored: StoredEvent = { ...said, ...at, chainHash: link };
    head = { position: at.position, chainHash: link };
    versions.set(event.subject, at.version);
    known.set(event.id, stored);
    fresh.push({ event: stored, text });
  };
  const decide = async ({ offer, texts }: CheckedOffer): Promise<Answer> => {
    const offered = new Map<string, SealedEvent>();
    for (const { event } of texts) {
      const other = known.get(event.id) ?? offered.get(event.id);
      if (other !== undefined && other.contentHash !== event.contentHash)
        return { kind: "refused", code: "id-stands-for-other-content", id: event.id };
      offered.set(event.id, event);
    }
    const version = versions.get(offer.subject) ?? 0;
    const isNew = texts.some(({ event }) => !known.has(event.id));
    if (isNew && version !== offer.expectedVersion) {
      const since = [
        ...(await selectEvents(inside, "subject = ? AND version > ? ORDER BY version", [
          offer.subject,
          offer.expectedVersion,
        ])),
        ...fresh
          .map(({ event }) => event)
          .filter((event) => event.subject === offer.subject && event.version > offer.expectedVersion),
      ];
      // a writer that tries again after half of it was taken is not contradicted by its own events
      const others = since.some(({ id }) => !offered.has(id));
      if (others || version < offer.expectedVersion) return { kind: "moved on", version, since };
    }
    for (const { event, text } of texts) if (!known.has(event.id)) place(event, text);
    const events = texts.map(({ event }) => known.get(event.id) as StoredEvent);
    return { kind: "accepted", events, version: versions.get(offer.subject) ?? 0 };
  };

  const answers: Answer[] = [];
  for (const checked of group) answers.push(await decide(checked));
  await insertEvents(inside, fresh);
  return answers;
}
