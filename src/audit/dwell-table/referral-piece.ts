import type { ReferralRow } from "../line/index.ts";
import { moments, packReferrals, referralAt, wordList, type PackedReferrals } from "../packed/index.ts";
import { sealedBytes, unsealedBytes } from "./piece-seal.ts";

/** A piece of referrals as bytes: the length of the head, the head as JSON, the columns, the widest first, a check sum. */
interface Head {
  readonly count: number;
  readonly instead: readonly string[];
  readonly ward: readonly string[];
  readonly keys: number;
}

interface Placed {
  readonly slot: number;
  readonly row: ReferralRow;
}

const encoder = new TextEncoder();
const decoder = new TextDecoder();
const padded = (bytes: number): number => Math.ceil(bytes / 8) * 8;

export function referralBytes(placed: readonly Placed[]): Uint8Array {
  const packed = packReferrals(placed.map(({ row }) => row));
  const keys = encoder.encode(JSON.stringify(placed.map(({ row }) => row.key)));
  const head: Head = {
    count: placed.length,
    instead: packed.instead.words,
    ward: packed.ward.words,
    keys: keys.length,
  };
  const text = encoder.encode(JSON.stringify(head));
  const columns: readonly ArrayBufferView[] = [
    packed.receivedOn.at,
    packed.receivedOn.offset,
    Int16Array.from(packed.instead.codes),
    Int16Array.from(packed.ward.codes),
    Int16Array.from(placed, ({ slot }) => slot),
    packed.outcome,
    keys,
  ];
  let at = padded(4 + text.length);
  const bytes = new Uint8Array(at + columns.reduce((sum, { byteLength }) => sum + byteLength, 0));
  new Uint32Array(bytes.buffer, 0, 1)[0] = text.length;
  bytes.set(text, 4);
  for (const { buffer, byteOffset, byteLength } of columns) {
    bytes.set(new Uint8Array(buffer, byteOffset, byteLength), at);
    at += byteLength;
  }
  return sealedBytes("referral", bytes);
}

function readPiece(data: Uint8Array) {
  const bytes = unsealedBytes("referral", data);
  const headLength = new Uint32Array(bytes.buffer, 0, 1)[0] as number;
  const head = JSON.parse(decoder.decode(bytes.subarray(4, 4 + headLength))) as Head;
  const { count } = head;
  const start = padded(4 + headLength);
  const shorts = (place: number) => new Int16Array(bytes.buffer, start + count * (8 + 2 * place), count);
  const rest = start + count * 16;
  let known: readonly string[] | undefined;
  return {
    head,
    at: new Float64Array(bytes.buffer, start, count),
    offset: shorts(0),
    instead: shorts(1),
    ward: shorts(2),
    slots: shorts(3),
    outcome: new Uint8Array(bytes.buffer, rest, count),
    keys: () => (known ??= JSON.parse(decoder.decode(bytes.subarray(rest + count))) as readonly string[]),
  };
}

/** The referrals of a piece, each with its slot. */
export function readReferralPiece(data: Uint8Array): readonly Placed[] {
  const { slots } = readPiece(data);
  const packed = joinReferrals([data]);
  return Array.from(slots, (slot, at) => ({ slot, row: referralAt(packed, at) }));
}

/** The pieces of all referrals as one set of columns. */
export function joinReferrals(data: readonly Uint8Array[]): PackedReferrals {
  const pieces = data.map(readPiece);
  const count = pieces.reduce((sum, { head }) => sum + head.count, 0);
  const receivedOn = moments(count);
  const outcome = new Uint8Array(count);
  const [instead, ward] = [wordList(), wordList()];
  const [insteadCodes, wardCodes] = [new Int32Array(count), new Int32Array(count)];
  const pieceOf = new Int32Array(count);
  const firstOf: number[] = [];
  let next = 0;
  for (const [place, piece] of pieces.entries()) {
    firstOf.push(next);
    receivedOn.at.set(piece.at, next);
    receivedOn.offset.set(piece.offset, next);
    outcome.set(piece.outcome, next);
    pieceOf.fill(place, next, next + piece.head.count);
    const [insteads, wards] = [piece.head.instead.map(instead.codeOf), piece.head.ward.map(ward.codeOf)];
    for (let at = 0; at < piece.head.count; at += 1) {
      const [said, where] = [piece.instead[at] as number, piece.ward[at] as number];
      insteadCodes[next + at] = said < 0 ? said : (insteads[said] as number);
      wardCodes[next + at] = where < 0 ? where : (wards[where] as number);
    }
    next += piece.head.count;
  }
  return {
    count,
    keyAt: (at) => {
      const place = pieceOf[at] as number;
      return (pieces[place] as (typeof pieces)[number]).keys()[at - (firstOf[place] as number)] as string;
    },
    receivedOn,
    outcome,
    instead: { codes: insteadCodes, words: instead.words },
    ward: { codes: wardCodes, words: ward.words },
  };
}
