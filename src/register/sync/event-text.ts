import { canonicalJson, contentHashOf, type SealedEvent } from "../event/index.ts";

const FIRST = "VEINWRIGHT ENTRIES 1";

/**
 * Entries as a block of text that can be copied, mailed or printed and pasted back: a line each, with its own seal.
 * For the moment when a device can keep nothing more.
 */
export const textOfEvents = (events: readonly SealedEvent[]): string =>
  [FIRST, ...events.map((event) => canonicalJson(event)), `END ${events.length}`].join("\n");

/** The entries of such a block; undefined when a line is missing, cut or changed. */
export function eventsOfText(text: string): readonly SealedEvent[] | undefined {
  const lines = text.trim().split(/\r?\n/);
  const inside = lines.slice(1, -1);
  if (lines[0] !== FIRST || lines.at(-1) !== `END ${inside.length}`) return undefined;
  const events: SealedEvent[] = [];
  for (const line of inside) {
    try {
      const event = JSON.parse(line) as SealedEvent;
      if (contentHashOf(event) !== event.contentHash) return undefined;
      events.push(event);
    } catch {
      return undefined;
    }
  }
  return events;
}
