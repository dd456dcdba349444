import type { SealedEvent, StoredEvent } from "../event/index.ts";
import { emptyDevice, type DeviceChange, type DeviceRecord } from "./device-record.ts";

/** The device's record after one more change. The same change twice changes nothing the second time. */
export function evolveDevice(device: DeviceRecord, change: DeviceChange): DeviceRecord {
  switch (change.kind) {
    case "written":
      return { ...device, queue: [...device.queue, ...fresh(device, change.events)] };
    case "placed":
      return place(device, change.events, device.upTo);
    case "pulled":
      return place(device, change.events, change.upTo);
    case "read again":
      return readAgain(device, change.events, change.upTo);
    case "set aside": {
      const event = device.queue.find(({ id }) => id === change.id);
      if (!event) return device;
      return {
        ...device,
        queue: device.queue.filter(({ id }) => id !== change.id),
        aside: [...device.aside, { event, code: change.code }],
      };
    }
    case "returned seen":
      return { ...device, returned: [] };
    case "offered again": {
      const aside = device.aside.find(({ event }) => event.id === change.id);
      if (!aside) return device;
      return {
        ...device,
        queue: [...device.queue, aside.event],
        aside: device.aside.filter((one) => one !== aside),
      };
    }
    case "whole":
      return change.device;
    default:
      return change satisfies never;
  }
}

export const foldDevice = (changes: readonly DeviceChange[]): DeviceRecord => changes.reduce(evolveDevice, emptyDevice);

const CHUNK = 2000; // known events in one entry of the shortened log: small enough to encrypt without a pause

/** A record as the fewest changes that make it. */
export function changesOf(device: DeviceRecord): readonly DeviceChange[] {
  const chunks: DeviceChange[] = [];
  for (let at = 0; at < device.known.length; at += CHUNK) {
    chunks.push({ kind: "placed", events: device.known.slice(at, at + CHUNK) });
  }
  return [{ kind: "whole", device: { ...device, known: [] } }, ...chunks];
}

function fresh(device: DeviceRecord, events: readonly SealedEvent[]): readonly SealedEvent[] {
  const waiting = new Set([...device.queue.map(({ id }) => id), ...device.aside.map(({ event }) => event.id)]);
  const own = new Set(events.map(({ id }) => id));
  for (const { id } of device.known) if (own.has(id)) waiting.add(id);
  return events.filter(({ id }) => !waiting.has(id));
}

function place(device: DeviceRecord, events: readonly StoredEvent[], upTo: number): DeviceRecord {
  const merged = merge(device.known, events);
  if (merged === undefined) return device.doubted ? device : { ...device, doubted: true };
  return { ...device, known: merged, upTo: Math.max(device.upTo, upTo), ...without(device, events) };
}

/** Both lists by position; undefined when one position holds two different events. */
function merge(known: readonly StoredEvent[], events: readonly StoredEvent[]): readonly StoredEvent[] | undefined {
  const last = known.at(-1)?.position ?? 0;
  const coming = [...events].sort((a, b) => a.position - b.position);
  if (coming.length === 0) return known;
  if ((coming[0] as StoredEvent).position > last) return [...known, ...coming];
  const merged: StoredEvent[] = [];
  let at = 0;
  for (const event of coming) {
    for (; at < known.length && (known[at] as StoredEvent).position < event.position; at += 1) {
      merged.push(known[at] as StoredEvent);
    }
    const here = known[at];
    if (here?.position !== event.position) {
      if (merged.at(-1)?.position !== event.position) merged.push(event);
    } else if (!isSame(here, event)) return undefined;
  }
  for (; at < known.length; at += 1) merged.push(known[at] as StoredEvent);
  return merged;
}

export const isSame = (a: StoredEvent, b: StoredEvent): boolean => a.id === b.id && a.chainHash === b.chainHash;

/** What is placed no longer waits, whoever sent it. */
function without(device: DeviceRecord, events: readonly StoredEvent[]): Pick<DeviceRecord, "queue" | "aside"> {
  const placed = new Set(events.map(({ id, contentHash }) => `${id} ${contentHash}`));
  const waits = ({ id, contentHash }: SealedEvent): boolean => !placed.has(`${id} ${contentHash}`);
  return { queue: device.queue.filter(waits), aside: device.aside.filter(({ event }) => waits(event)) };
}

function readAgain(device: DeviceRecord, events: readonly StoredEvent[], upTo: number): DeviceRecord {
  const held = new Set(events.map(({ id, contentHash }) => `${id} ${contentHash}`));
  const lost = device.known.filter(({ id, contentHash }) => !held.has(`${id} ${contentHash}`)).map(unplaced);
  const { queue, aside } = without(device, events);
  const told = new Set(device.returned.map(({ id }) => id));
  return {
    known: [...events].sort((a, b) => a.position - b.position),
    upTo,
    // what the server lost was written before what waits here
    queue: [...lost, ...queue],
    aside,
    returned: [...device.returned, ...lost.filter(({ id }) => !told.has(id))],
    doubted: false,
  };
}

/** The event as its writer sealed it, without the place a server gave it. */
function unplaced({ position: _p, version: _v, chainHash: _c, ...sealed }: StoredEvent): SealedEvent {
  return sealed;
}
