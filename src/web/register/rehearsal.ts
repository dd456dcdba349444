import { civilDateOf, instantInZone } from "../../core/calendar/index.ts";
import { practiceRecord } from "../../practice/index.ts";
import { CHAIN_START, type StoredEvent, type Subject } from "../../register/index.ts";

/** The practice service as it would stand now; it is shown, never kept and never sent. */
export function rehearsal(): readonly StoredEvent[] {
  const now = instantInZone(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone);
  const versions = new Map<Subject, number>();
  return practiceRecord(civilDateOf(now), now.slice(19)).map((event, at) => {
    const version = (versions.get(event.subject) ?? 0) + 1;
    versions.set(event.subject, version);
    return { ...event, position: at + 1, version, chainHash: CHAIN_START };
  });
}
