import { addDays, civilDateOf, instantInZone, instantMs, type Instant } from "../../core/calendar/index.ts";
import { practiceRecord } from "../../practice/index.ts";
import { CHAIN_START, type SealedEvent, type StoredEvent, type Subject } from "../../register/index.ts";

/** The practice service as it would stand now; it is shown, never kept and never sent. */
export const rehearsal = (): readonly StoredEvent[] =>
  practiceUpTo(instantInZone(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone));

/** The practice service up to a moment: early in the morning its newest day is yesterday, so that nothing lies ahead. */
export function practiceUpTo(now: Instant): readonly StoredEvent[] {
  const today = civilDateOf(now);
  const onDay = (day: typeof today) => practiceRecord(day, now.slice(19));
  const ahead = ({ happenedAt, writtenAt }: SealedEvent) =>
    Math.max(instantMs(happenedAt), instantMs(writtenAt)) > instantMs(now);
  const events = onDay(today);
  const versions = new Map<Subject, number>();
  return (events.some(ahead) ? onDay(addDays(today, -1)) : events).map((event, at) => {
    const version = (versions.get(event.subject) ?? 0) + 1;
    versions.set(event.subject, version);
    return { ...event, position: at + 1, version, chainHash: CHAIN_START };
  });
}
