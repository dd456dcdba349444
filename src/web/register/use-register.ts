import { useCallback, useMemo, useRef, useState } from "react";
import { civilDateOf, instantInZone } from "../../core/calendar/index.ts";
import { practiceRecord } from "../../practice/index.ts";
import {
  CHAIN_START,
  evolveHistory,
  initialHistory,
  seal,
  type History,
  type Json,
  type StoredEvent,
  type Subject,
} from "../../register/index.ts";
import type { Register, Writing } from "./register.ts";

const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;

/**
 * The record as a rehearsal: it starts with the practice service and lives as long as the page. Nothing written is kept;
 * every page of it says so, until a store on the device keeps it.
 */
export function useRegister(policyVersion: string): Register {
  const [histories, setHistories] = useState<ReadonlyMap<Subject, History>>(() => fold(new Map(), rehearsal()));
  const latest = useRef(histories);
  const now = useCallback(() => instantInZone(Date.now(), zone), []);
  const newId = useCallback(() => crypto.randomUUID(), []);
  const write = useCallback(
    (writings: readonly Writing[]): Promise<void> => {
      let next = latest.current;
      for (const { subject, type, data, happenedAt, author } of writings) {
        const version = next.get(subject)?.version ?? 0;
        const sealed = seal({
          id: newId(),
          subject,
          type,
          shape: 1,
          happenedAt,
          writtenAt: now(),
          author,
          device: "this device",
          policyVersion,
          seen: version,
          data: data as unknown as Readonly<Record<string, Json>>,
        });
        next = fold(next, [{ ...sealed, position: Date.now(), version: version + 1, chainHash: CHAIN_START }]);
      }
      latest.current = next;
      setHistories(next);
      return Promise.resolve();
    },
    [newId, now, policyVersion],
  );
  return useMemo(
    () => ({
      ready: true,
      locked: false,
      histories,
      unsent: 0,
      contact: { kind: "alone" },
      trouble: undefined,
      device: "this device",
      write,
      newId,
      now,
    }),
    [histories, write, newId, now],
  );
}

/** The practice service as it would stand now. */
function rehearsal(): readonly StoredEvent[] {
  const now = instantInZone(Date.now(), zone);
  const versions = new Map<Subject, number>();
  return practiceRecord(civilDateOf(now), now.slice(19)).map((event, at) => {
    const version = (versions.get(event.subject) ?? 0) + 1;
    versions.set(event.subject, version);
    return { ...event, position: at + 1, version, chainHash: CHAIN_START };
  });
}

function fold(before: ReadonlyMap<Subject, History>, events: readonly StoredEvent[]): ReadonlyMap<Subject, History> {
  const next = new Map(before);
  for (const event of events) {
    next.set(event.subject, evolveHistory(next.get(event.subject) ?? initialHistory(event.subject), event));
  }
  return next;
}
