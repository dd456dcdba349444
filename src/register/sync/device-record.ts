import type { SealedEvent, StoredEvent } from "../event/index.ts";

/** Why a server would not take an event: the store's two codes, and what stands before the store. */
export const ASIDE_CODES = [
  "wrong-content-hash",
  "id-stands-for-other-content",
  "not-allowed",
  "not-understood",
] as const;
export type AsideCode = (typeof ASIDE_CODES)[number];

/** An event the server refused: kept on the device, shown in words, never dropped and never sent again unasked. */
export interface Aside {
  readonly event: SealedEvent;
  readonly code: AsideCode;
}

/**
 * What a device holds of the record.
 *   known     what the server has placed, by position
 *   upTo      every event of the server up to this position is known; of later ones only some may be
 *   queue     written here, or lost by the server, and not placed yet; in the order they were written
 *   aside     refused by the server
 *   returned  what the server lacked when it came back with an older backup; until a person has seen it
 *   doubted   something known stands where the server put something else: the whole of it is to be read again
 */
export interface DeviceRecord {
  readonly known: readonly StoredEvent[];
  readonly upTo: number;
  readonly queue: readonly SealedEvent[];
  readonly aside: readonly Aside[];
  readonly returned: readonly SealedEvent[];
  readonly doubted: boolean;
}

export const emptyDevice: DeviceRecord = { known: [], upTo: 0, queue: [], aside: [], returned: [], doubted: false };

/**
 * What happens to a device's record. The device keeps these and folds them again when it opens.
 *   written        a person signed these here
 *   placed         the server said where these stand: taken from here, or come since
 *   pulled         the next events of the server, with nothing left out up to a position
 *   read again     everything the server holds; what was known and is not in it goes back into the queue
 *   set aside      the server refused one
 *   returned seen  a person has read what the server had lost
 *   offered again  a person asks for one that was set aside to be offered once more
 *   whole          the record as it was: what a long log is shortened to
 */
export type DeviceChange =
  | { readonly kind: "written"; readonly events: readonly SealedEvent[] }
  | { readonly kind: "placed"; readonly events: readonly StoredEvent[] }
  | { readonly kind: "pulled"; readonly events: readonly StoredEvent[]; readonly upTo: number }
  | { readonly kind: "read again"; readonly events: readonly StoredEvent[]; readonly upTo: number }
  | { readonly kind: "set aside"; readonly id: string; readonly code: AsideCode }
  | { readonly kind: "returned seen" }
  | { readonly kind: "offered again"; readonly id: string }
  | { readonly kind: "whole"; readonly device: DeviceRecord };
