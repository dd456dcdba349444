import {
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  type EventStore,
  type History,
  type Subject,
} from "../../register/index.ts";
import { linesOfRegister, type KnownLines } from "../../spreadsheet/index.ts";
import { isPostgresql, mustBeThere, openStore, storeAddress } from "../../store/index.ts";
import { recordRefused } from "./record-refused.ts";
import type { Said } from "./command.ts";

const EVENTS_AT_ONCE = 1000;

/** The lines of the record at a place, under the keys an import has; or why the record cannot be read. */
export async function linesOfStore(place: string): Promise<{ readonly lines: KnownLines } | Said> {
  // the folder of a record may be named as well as its file
  const address = isPostgresql(place) || place.endsWith(".sqlite") ? place : storeAddress(place);
  try {
    mustBeThere(address);
    const store = await openStore(address);
    try {
      const histories = [...(await historiesOf(store)).values()];
      const of = (kind: string) => histories.filter(({ subject }) => subject.startsWith(`${kind}:`));
      const patients = new Map(of("patient").map((history) => [history.subject, patientView(history)]));
      return { lines: linesOfRegister(of("line").map(lineView), patients) };
    } finally {
      await store.close();
    }
  } catch (error) {
    return { exit: 65, output: recordRefused(error, address).said };
  }
}

async function historiesOf(store: EventStore): Promise<ReadonlyMap<Subject, History>> {
  const histories = new Map<Subject, History>();
  let position = 0;
  for (;;) {
    const events = await store.readAfter(position, EVENTS_AT_ONCE);
    for (const event of events) {
      if (!/^(line|patient):/.test(event.subject)) continue;
      histories.set(event.subject, evolveHistory(histories.get(event.subject) ?? initialHistory(event.subject), event));
    }
    const last = events.at(-1);
    if (!last) return histories;
    position = last.position;
  }
}
