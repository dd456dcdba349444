import { CHAIN_START, chainEntry, chainHash, contentHashOf } from "../../register/index.ts";
import type { RecordPort } from "../../store/index.ts";
import type { MachineAnswer } from "../server-parts.ts";

const PAGE = 500;

/** Follows the record's chain from its start: every seal and every link computed again. */
export async function verifyRecord(store: RecordPort): Promise<MachineAnswer> {
  let [position, chain] = [0, CHAIN_START];
  for (;;) {
    const events = await store.readAfter(position, PAGE);
    for (const event of events) {
      chain = chainHash(chain, chainEntry(event, event.position, event.version));
      const whole = contentHashOf(event) === event.contentHash && chain === event.chainHash;
      if (event.position !== position + 1 || !whole) {
        return { good: false, lines: [`record: broken at ${position + 1}`] };
      }
      position = event.position;
    }
    if (events.length < PAGE) return { good: true, lines: [`record: ${position} entries, whole`] };
  }
}
