import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, hexToBytes } from "@noble/hashes/utils.js";

/** What must be kept to go on adding leaves: the roots of the full subtrees, largest first, and the count of leaves. */
export interface MerkleFrontier {
  readonly size: number;
  /** Hexadecimal. */
  readonly peaks: readonly string[];
}

type Hash = ReturnType<typeof sha256>;

export interface MerkleTree {
  add(leaf: Uint8Array): void;
  /** Root over all leaves so far, in hexadecimal. */
  root(): string;
  frontier(): MerkleFrontier;
}

/**
 * A Merkle tree that grows by one leaf at a time; it keeps the roots of its full subtrees and not its leaves.
 * Leaf = SHA-256(0x00 || leaf), node = SHA-256(0x01 || left || right), empty = SHA-256(""); the left subtree of n leaves
 * holds the largest power of two below n. Source: RFC 6962 section 2.1.
 * Example: merkleTree().root() begins e3b0c442.
 */
export function merkleTree(from: MerkleFrontier = { size: 0, peaks: [] }): MerkleTree {
  let { size } = from;
  const peaks: Hash[] = from.peaks.map((peak) => hexToBytes(peak));
  const pair = new Uint8Array(65);
  pair[0] = 1;
  const join = (left: Hash, right: Hash): Hash => {
    pair.set(left, 1);
    pair.set(right, 33);
    return sha256(pair);
  };
  return {
    add: (leaf) => {
      const marked = new Uint8Array(1 + leaf.length);
      marked.set(leaf, 1);
      let node: Hash = sha256(marked);
      // like a binary counter: every trailing one bit of the size is a full subtree of the same height to be joined
      for (let rest = size; rest % 2 === 1; rest = (rest - 1) / 2) node = join(peaks.pop() as Hash, node);
      peaks.push(node);
      size += 1;
    },
    root: () => {
      const last = peaks.at(-1);
      if (last === undefined) return bytesToHex(sha256(new Uint8Array()));
      return bytesToHex(peaks.slice(0, -1).reduceRight((right, left) => join(left, right), last));
    },
    frontier: () => ({ size, peaks: peaks.map((peak) => bytesToHex(peak)) }),
  };
}

/** The leaf of an event: the 32 bytes of its content hash. */
export const contentLeaf = (contentHash: string): Uint8Array => hexToBytes(contentHash);
