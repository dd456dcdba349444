import { useCallback, useMemo, useRef, useState } from "react";
import { instantInZone } from "../../core/calendar/index.ts";
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

/** The record of this device. */
export function useRegister(policyVersion: string, start: readonly StoredEvent[] = []): Register {
  const [histories, setHistories] = useState<ReadonlyMap<Subject, History>>(() => fold(new Map(), start));
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

function fold(before: ReadonlyMap<Subject, History>, events: readonly StoredEvent[]): ReadonlyMap<Subject, History> {
  const next = new Map(before);
  for (const event of events) {
    next.set(event.subject, evolveHistory(next.get(event.subject) ?? initialHistory(event.subject), event));
  }
  return next;
}
