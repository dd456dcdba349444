import { CHAIN_START, chainEntry, chainHash, contentHashOf, type StoredEvent } from "../event/index.ts";

/**
 * Whether an event is what its writer sealed and its link follows from the event before it. After a gap (a server may
 * keep back what a person has no right to) only the seal can be asked.
 */
export function follows(before: StoredEvent | undefined, event: StoredEvent): boolean {
  if (contentHashOf(event) !== event.contentHash) return false;
  const first = before === undefined && event.position === 1;
  if (!first && before?.position !== event.position - 1) return true;
  const start = before?.chainHash ?? CHAIN_START;
  return chainHash(start, chainEntry(event, event)) === event.chainHash;
}
