import { canonicalJson, type StoredEvent } from "../event/index.ts";
import { isAboutAnEvent } from "../catalogue.ts";
import type { Happening } from "./history.ts";

/** Two people wrote the same kind of thing, neither having seen the other's; both are kept until one is chosen. */
export interface Dispute {
  readonly first: StoredEvent;
  readonly second: StoredEvent;
  /** The fields in which they differ, in the first one's order. */
  readonly fields: readonly string[];
}

/** Facts of which a line, a referral or a person has one; a second of them is a question. */
const ONCE = new Set([
  "LineInserted",
  "LineRemoved",
  "OwnerNamed",
  "ReferralDecided",
  "PlanAgreed",
  "PatientRegistered",
]);

/**
 * What two writers said differently without knowing of each other. A writer who saw n events did not know the ones from
 * n + 1 to its own; of those, the same once-only fact with other values, or a care visit of the same day with another
 * outside length, is a dispute. A correction or a void of either settles it.
 */
export function disputes(happenings: readonly Happening[]): readonly Dispute[] {
  const byVersion = [...happenings]
    .filter(({ voided, event }) => voided === undefined && !isAboutAnEvent(event.type))
    .sort((a, b) => a.event.version - b.event.version);
  return byVersion.flatMap((later): Dispute[] =>
    byVersion
      .filter((earlier) => unseen(earlier.event, later.event) && comparable(earlier, later))
      .flatMap((earlier) => {
        const fields = differing(earlier, later);
        return fields.length === 0 || settled(earlier, later, fields)
          ? []
          : [{ first: earlier.event, second: later.event, fields }];
      }),
  );
}

const unseen = (earlier: StoredEvent, later: StoredEvent): boolean =>
  earlier.version > later.seen && earlier.version < later.version && earlier.device !== later.device;

const comparable = (a: Happening, b: Happening): boolean =>
  a.event.type === b.event.type &&
  (ONCE.has(a.event.type) ||
    (a.event.type === "CareGiven" && a.event.happenedAt.slice(0, 10) === b.event.happenedAt.slice(0, 10)));

function differing(a: Happening, b: Happening): readonly string[] {
  const fields = a.event.type === "CareGiven" ? ["outsideCm"] : [...Object.keys(a.entry), ...Object.keys(b.entry)];
  return [...new Set(fields)].filter(
    (field) => canonicalJson(a.entry[field] ?? null) !== canonicalJson(b.entry[field] ?? null),
  );
}

const settled = (a: Happening, b: Happening, fields: readonly string[]): boolean =>
  fields.every((field) => [...a.struck, ...b.struck].some((struck) => struck.field === field));
