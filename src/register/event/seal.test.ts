import { expect, test } from "vitest";
import { CHAIN_START, chainHash } from "./seal.ts";

// Published lines: SHA-256 of "abc" is FIPS 180-4's example; the chain of two entries from zeros was computed apart
// from this program with Python's hashlib.
test("a chain of two entries from zeros", () => {
  const first = chainHash(CHAIN_START, { seq: 1, a: 1 });
  const second = chainHash(first, { a: 2, seq: 2 });
  expect(first).toMatch(/^3ff41429[0-9a-f]{52}b451$/);
  expect(second).toMatch(/^cf8edf4b[0-9a-f]{52}4ef3$/);
});
