import type { EventStore } from "../../register/index.ts";

const HOUR_MS = 3_600_000;

/**
 * Keeps the day's head now and every hour, so that each day's last stands whenever midnight finds the server; verifying
 * compares the record with every head kept. Gives what ends it.
 */
export async function keepCheckpoints(
  store: Pick<EventStore, "checkpoint" | "head">,
  now: () => Date,
  log: (line: string) => void,
): Promise<() => void> {
  const keep = async (): Promise<void> => {
    try {
      // an empty record has no head to keep
      if ((await store.head()).position > 0) await store.checkpoint(now().toISOString().slice(0, 10));
    } catch (error) {
      // the record goes on without it; the next hour tries again
      log(JSON.stringify({ checkpoint: error instanceof Error ? error.name : "unknown" }));
    }
  };
  await keep();
  const timer = setInterval(() => void keep(), HOUR_MS);
  timer.unref();
  return () => clearInterval(timer);
}
