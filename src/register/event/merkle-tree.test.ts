import { hexToBytes } from "@noble/hashes/utils.js";
import { expect, test } from "vitest";
import { merkleTree } from "./merkle-tree.ts";

// The reference vectors of Certificate Transparency (RFC 6962 section 2.1): eight leaves and the roots of the first n,
// known to us by their first four and last two bytes.
const LEAVES = ["", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f"];
const ROOTS = [
  ["e3b0c442", "b855"],
  ["6e340b9c", "a01d"],
  ["fac54203", "c125"],
  ["aeb6bcfe", "6e77"],
  ["d37ee418", "14b7"],
  ["4e3bbb1f", "64d4"],
  ["76e67dad", "87ef"],
  ["ddb89be4", "4c8c"],
  ["5dc9da79", "4328"],
] as const;

test.each(ROOTS.map(([head, tail], size) => ({ size, head, tail })))("root of $size leaves", ({ size, head, tail }) => {
  const tree = merkleTree();
  for (const leaf of LEAVES.slice(0, size)) tree.add(hexToBytes(leaf));
  expect(tree.root()).toMatch(new RegExp(`^${head}[0-9a-f]{52}${tail}$`));
});

test("a tree goes on from its frontier, whatever the size it stopped at", () => {
  for (let stop = 0; stop <= LEAVES.length; stop += 1) {
    const first = merkleTree();
    for (const leaf of LEAVES.slice(0, stop)) first.add(hexToBytes(leaf));
    const second = merkleTree(first.frontier());
    for (const leaf of LEAVES.slice(stop)) second.add(hexToBytes(leaf));
    expect(second.root()).toMatch(/^5dc9da79.*4328$/);
  }
});
