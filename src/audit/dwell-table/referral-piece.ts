import type { ReferralRow } from "../line/index.ts";
import { packReferrals, type PackedReferrals } from "../packed/index.ts";

const encoder = new TextEncoder();
const decoder = new TextDecoder();

interface Placed {
  readonly slot: number;
  readonly row: ReferralRow;
}

/** Referrals are few words each: a piece of them is JSON. */
export const referralBytes = (placed: readonly Placed[]): Uint8Array => encoder.encode(JSON.stringify(placed));

export const readReferralPiece = (data: Uint8Array): readonly Placed[] =>
  JSON.parse(decoder.decode(data)) as readonly Placed[];

export const joinReferrals = (pieces: readonly Uint8Array[]): PackedReferrals =>
  packReferrals(pieces.flatMap((data) => readReferralPiece(data).map(({ row }) => row)));
