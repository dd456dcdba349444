import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  changesOf,
  deviceHistories,
  disputes,
  emptyDevice,
  evolveDevice,
  foldDevice,
  follows,
  headIsOlder,
  offersOf,
  readHistory,
  readPage,
  seenOf,
  takeAnswer,
  type DeviceChange,
  type DeviceRecord,
  type SealedEvent,
  type Subject,
} from "../../src/register/index.ts";
import { PlainStore } from "../device/plain-store.ts";
import { inventedEntry } from "../invented-entry.ts";

const SUBJECTS = ["line:a", "line:b"] as const satisfies readonly Subject[];
const TYPES = ["LineRemoved", "OwnerNamed", "LineUsed"] as const;

/** A device as the page runs one, step by step, so that steps of two devices and the server can be mixed. */
class Tablet {
  log: DeviceChange[] = [];
  record: DeviceRecord = emptyDevice;
  /** For each event written here: what the writer had on the device. Kept apart from `seen`, which is under test. */
  readonly hadSeen = new Map<string, ReadonlySet<string>>();
  readonly name: string;
  constructor(name: string) {
    this.name = name;
  }

  take(change: DeviceChange): void {
    this.log.push(change);
    this.record = evolveDevice(this.record, change);
  }

  write(subject: Subject, type: string, value: number, id: string): void {
    const known = this.record.known.map((event) => event.id);
    this.hadSeen.set(id, new Set([...known, ...this.record.queue.map((event) => event.id)]));
    const event = inventedEntry({
      id,
      subject,
      type,
      device: this.name,
      seen: seenOf(deviceHistories(this.record).get(subject)),
      data: { lengthOutCm: { value, from: "measured" } },
    });
    this.take({ kind: "written", events: [event] });
  }

  /** Offers all that waits; an answer that gets lost on its way changes nothing here. */
  send(store: PlainStore, lost: boolean): void {
    for (const offer of offersOf(this.record)) {
      const answer = store.append(offer);
      if (!lost) this.take(takeAnswer(answer));
    }
  }

  pull(store: PlainStore, limit: number): void {
    if (headIsOlder(this.record, store.head())) return this.readAgain(store);
    const page = store.readAfter(Math.max(0, this.record.upTo - 1), limit);
    const reading = readPage(this.record, page, follows);
    if (reading.kind === "goes on") this.take(reading.change);
    else if (reading.kind === "server is older") this.readAgain(store);
    else throw new Error(`the chain breaks at ${reading.position}`);
  }

  readAgain(store: PlainStore): void {
    this.take({ kind: "read again", events: store.readAfter(0, Infinity), upTo: store.head().position });
  }
}

type Step =
  | {
      readonly kind: "write";
      readonly by: 0 | 1;
      readonly subject: Subject;
      readonly type: string;
      readonly value: number;
    }
  | { readonly kind: "send"; readonly by: 0 | 1; readonly lost: boolean }
  | { readonly kind: "pull"; readonly by: 0 | 1; readonly limit: number }
  | { readonly kind: "shorten"; readonly by: 0 | 1 }
  | { readonly kind: "go back"; readonly share: number };

const by = fc.constantFrom(0 as const, 1 as const);
const ordinary: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({
      kind: fc.constant("write" as const),
      by,
      subject: fc.constantFrom(...SUBJECTS),
      type: fc.constantFrom(...TYPES),
      value: fc.integer({ min: 1, max: 3 }),
    }),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("send" as const), by, lost: fc.boolean() }) },
  {
    weight: 2,
    arbitrary: fc.record({ kind: fc.constant("pull" as const), by, limit: fc.integer({ min: 2, max: 4 }) }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("shorten" as const), by }) },
);
const older: fc.Arbitrary<Step> = fc.record({
  kind: fc.constant("go back" as const),
  share: fc.double({ min: 0, max: 1, noNaN: true }),
});

function run(steps: readonly Step[]) {
  const store = new PlainStore();
  const tablets = [new Tablet("tablet 1"), new Tablet("tablet 2")] as const;
  const written: SealedEvent[] = [];
  steps.forEach((step, index) => {
    if (step.kind === "go back") return store.goBackTo(Math.floor(store.events.length * step.share));
    const tablet = tablets[step.by];
    if (step.kind === "write") {
      tablet.write(step.subject, step.type, step.value, `e${index}`);
      written.push(tablet.record.queue.at(-1) as SealedEvent);
    } else if (step.kind === "send") tablet.send(store, step.lost);
    else if (step.kind === "pull") tablet.pull(store, step.limit);
    else tablet.log = [...changesOf(tablet.record)];
  });
  for (let round = 0; round < 60; round += 1) {
    for (const tablet of tablets) {
      tablet.pull(store, 3);
      tablet.send(store, false);
    }
  }
  return { store, tablets, written };
}

/** The histories a server's list tells, read without any code of the device. */
const told = (store: PlainStore, subject: Subject) => store.events.filter((event) => event.subject === subject);

describe("two devices and a server, in any order of writing, sending, losing answers and reading", () => {
  test("end with the same histories, every event once, nothing waiting", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof({ weight: 12, arbitrary: ordinary }, { weight: 1, arbitrary: older }), { maxLength: 40 }),
        (steps) => {
          const { store, tablets, written } = run(steps);
          for (const { record } of tablets) {
            expect(record.queue).toEqual([]);
            expect(record.aside).toEqual([]);
            expect(record.known).toEqual(store.events);
            const histories = deviceHistories(record);
            for (const subject of SUBJECTS) expect(histories.get(subject)?.events ?? []).toEqual(told(store, subject));
          }
          const ids = store.events.map(({ id }) => id);
          expect(new Set(ids).size).toBe(ids.length);
          // an event is lost only if no device held it as its own or as known when the server went back: never its writer
          expect([...ids].sort()).toEqual(written.map(({ id }) => id).sort());
        },
      ),
      { numRuns: 600 },
    );
  });

  test("list every pair that says the same thing differently and was written unseen, and no other", () => {
    fc.assert(
      fc.property(fc.array(ordinary, { maxLength: 40 }), (steps) => {
        const { store, tablets } = run(steps);
        const had = new Map([...tablets[0].hadSeen, ...tablets[1].hadSeen]);
        for (const subject of SUBJECTS) {
          const events = told(store, subject);
          const expected = events.flatMap((later, at) =>
            events.slice(0, at).flatMap((earlier) => {
              const apart = later.device !== earlier.device && !had.get(later.id)?.has(earlier.id);
              const once = later.type === earlier.type && later.type !== "LineUsed";
              const differ = JSON.stringify(later.data) !== JSON.stringify(earlier.data);
              return apart && once && differ ? [`${earlier.id} ${later.id}`] : [];
            }),
          );
          for (const { record } of tablets) {
            const history = deviceHistories(record).get(subject);
            const listed = history
              ? disputes(readHistory(history)).map(({ first, second }) => `${first.id} ${second.id}`)
              : [];
            expect([...listed].sort()).toEqual(expected.sort());
          }
        }
      }),
      { numRuns: 600 },
    );
  });

  test("fold again from their log, whole or shortened, to the record they had", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof({ weight: 12, arbitrary: ordinary }, { weight: 1, arbitrary: older }), { maxLength: 40 }),
        (steps) => {
          for (const { log, record } of run(steps).tablets) {
            expect(foldDevice(log)).toEqual(record);
            expect(foldDevice(changesOf(record))).toEqual(record);
            // a log read twice, as after a crash between keeping and telling, changes nothing
            expect(evolveDevice(record, log.at(-1) ?? { kind: "returned seen" }).known).toEqual(record.known);
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});
