import { describe, expect, test } from "vitest";
import { CHAIN_START, chainEntry, chainHash, type SealedEvent, type StoredEvent } from "../event/index.ts";
import { emptyDevice } from "./device-record.ts";
import { evolveDevice, foldDevice } from "./evolve-device.ts";
import { follows } from "./follows.ts";
import { headIsOlder, offersOf, readPage, takeAnswer } from "./take-answer.ts";
import { inventedEntry } from "../../../test/invented-entry.ts";

const event = (id: string, seen = 0): SealedEvent =>
  inventedEntry({ id, subject: "line:a", type: "LineUsed", seen, data: { drug: { value: id, from: "told" } } });

function chain(...ids: readonly string[]): readonly StoredEvent[] {
  const events: StoredEvent[] = [];
  for (const [index, id] of ids.entries()) {
    const sealed = event(id);
    const before = events.at(-1)?.chainHash ?? CHAIN_START;
    const place = index + 1;
    events.push({
      ...sealed,
      position: place,
      version: place,
      chainHash: chainHash(before, chainEntry(sealed, { position: place, version: place })),
    });
  }
  return events;
}

describe("an answer of the store", () => {
  test("accepted: it waits no more", () => {
    const [placed] = chain("a") as [StoredEvent];
    const waiting = evolveDevice(emptyDevice, { kind: "written", events: [event("a")] });
    const device = evolveDevice(waiting, takeAnswer({ kind: "accepted", events: [placed], version: 1 }));
    expect(device.queue).toEqual([]);
    expect(device.known).toEqual([placed]);
  });

  test("moved on: what came is known, the event keeps what its writer had seen and is offered at the new version", () => {
    const since = chain("x", "y");
    const waiting = evolveDevice(emptyDevice, { kind: "written", events: [event("a")] });
    const device = evolveDevice(waiting, takeAnswer({ kind: "moved on", version: 2, since }));
    expect(offersOf(device)).toEqual([{ subject: "line:a", expectedVersion: 2, events: [event("a")] }]);
    expect(device.queue[0]?.seen).toBe(0);
  });

  test("refused: kept aside with its reason, offered again only when asked", () => {
    const waiting = evolveDevice(emptyDevice, { kind: "written", events: [event("a"), event("b")] });
    const device = evolveDevice(waiting, takeAnswer({ kind: "refused", code: "id-stands-for-other-content", id: "a" }));
    expect(device.queue.map(({ id }) => id)).toEqual(["b"]);
    expect(device.aside).toEqual([{ event: event("a"), code: "id-stands-for-other-content" }]);
    const again = evolveDevice(device, { kind: "offered again", id: "a" });
    expect(again.queue.map(({ id }) => id)).toEqual(["b", "a"]);
    expect(again.aside).toEqual([]);
  });
});

describe("a page of a server's events", () => {
  const five = chain("a", "b", "c", "d", "e");
  const device = foldDevice([{ kind: "pulled", events: five.slice(0, 3), upTo: 3 }]);

  test("goes on when the last event held comes back as it was", () => {
    const reading = readPage(device, five.slice(2), follows);
    expect(reading).toEqual({ kind: "goes on", change: { kind: "pulled", events: five.slice(3), upTo: 5 } });
  });

  test("another event, or none, where one was held: the server is older", () => {
    expect(readPage(device, chain("a", "b", "z").slice(2), follows)).toEqual({ kind: "server is older" });
    expect(readPage(device, [], follows)).toEqual({ kind: "server is older" });
    expect(headIsOlder(device, { position: 2 })).toBe(true);
    expect(headIsOlder(device, { position: 3 })).toBe(false);
  });

  test("an event whose words were changed, or one taken out, does not hold together", () => {
    const changed = { ...(five[3] as StoredEvent), data: { drug: { value: "other", from: "told" } } } as StoredEvent;
    expect(readPage(device, [five[2] as StoredEvent, changed], follows)).toEqual({
      kind: "does not hold together",
      position: 4,
    });
    const moved = { ...(five[4] as StoredEvent), position: 4 };
    expect(readPage(device, [five[2] as StoredEvent, moved], follows)).toEqual({
      kind: "does not hold together",
      position: 4,
    });
  });

  test("what an older server lacks waits again before what was written since, and is listed until seen", () => {
    const later = evolveDevice(device, { kind: "written", events: [event("new")] });
    const read = evolveDevice(later, { kind: "read again", events: five.slice(0, 1), upTo: 1 });
    expect(read.queue.map(({ id }) => id)).toEqual(["b", "c", "new"]);
    expect(read.returned.map(({ id }) => id)).toEqual(["b", "c"]);
    expect(read.queue[0]).toEqual(event("b"));
    expect(evolveDevice(read, { kind: "returned seen" }).returned).toEqual([]);
  });
});
