import { describe, expect, test } from "vitest";
import { passwordFault, signsOf } from "./password-fault.ts";
import { passwordHash, passwordIs } from "./password-hash.ts";
import { usualLimits } from "./people-limits.ts";
import { oneTimePassword, recoveryCode, recoveryHash, sessionToken, sha256Hex } from "./random-secret.ts";
import { base32, fromBase32, stepAt, stepOfCode, timeCode } from "./time-code.ts";
import { TokenBucket } from "./token-bucket.ts";
import { secondsToWait } from "./wait-after-wrong.ts";

describe("codes by the clock", () => {
  const seed = new TextEncoder().encode("12345678901234567890");

  // RFC 6238 appendix B, the rows of SHA-1
  test.each([
    [59, "94287082"],
    [1_111_111_109, "07081804"],
    [1_111_111_111, "14050471"],
    [1_234_567_890, "89005924"],
    [2_000_000_000, "69279037"],
    [20_000_000_000, "65353130"],
  ])("at %d s: %s", (seconds, code) => expect(timeCode(seed, stepAt(seconds), 8)).toBe(code));

  // RFC 4226 appendix D, the first ten values
  test("by counter", () => {
    expect(Array.from({ length: 10 }, (_, count) => timeCode(seed, count))).toEqual(
      "755224 287082 359152 969429 338314 254676 287922 162583 399871 520489".split(" "),
    );
  });

  // RFC 4648 section 10, without the padding
  test.each([
    ["f", "MY"],
    ["fo", "MZXQ"],
    ["foo", "MZXW6"],
    ["foob", "MZXW6YQ"],
    ["fooba", "MZXW6YTB"],
    ["foobar", "MZXW6YTBOI"],
  ])("base 32 of %s", (plain, written) => {
    expect(base32(new TextEncoder().encode(plain))).toBe(written);
    expect(new TextDecoder().decode(fromBase32(written))).toBe(plain);
  });

  test("a code is good one step early or late and no more", () => {
    const code = timeCode(seed, stepAt(59));
    expect(stepOfCode(seed, code, 59)).toBe(1);
    expect(stepOfCode(seed, code, 89)).toBe(1);
    expect(stepOfCode(seed, code, 29)).toBe(1);
    expect(stepOfCode(seed, code, 91)).toBeUndefined();
    expect(stepOfCode(seed, "28708", 59)).toBeUndefined();
  });
});

describe("passwords", () => {
  // The hash of "password" with the salt "somesalt" printed in the test file of the argon2 reference implementation
  // (P-H-C/phc-winner-argon2, src/test.c), from memory.
  test("reads the reference implementation's hash", async () => {
    const known = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
    expect(await passwordIs("password", known)).toBe(true);
    expect(await passwordIs("passwore", known)).toBe(false);
  });

  test("is kept as argon2id with at least 19 MiB and two passes", async () => {
    const kept = await passwordHash("ein Zaun aus Wörtern");
    expect(kept).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect(await passwordIs("ein Zaun aus Wo\u0308rtern", kept)).toBe(true);
    expect(await passwordIs("nobody has this password", "")).toBe(false);
  });

  test.each([
    ["fourteen signs", false, "too-short"],
    ["fifteen a signs", false, undefined],
    ["plum tub", true, undefined],
    ["plum tu", true, "too-short"],
    ["P@ssw0rd2026!!!!", false, "too-common"],
    ["hospitalward2026", false, "too-common"],
    ["aaaaaaaaaaaaaaaaaa", false, "too-common"],
    ["1234567890123456", false, "too-common"],
    ["abcdefghijklmnop", false, "too-common"],
    ["blueblueblueblue", false, "too-common"],
    ["kestrel m.kolm over", false, "holds-the-account"],
    ["x".repeat(20) + "y".repeat(240), false, "too-long"],
  ])("%s, second factor %s: %s", (password, besideCode, fault) => {
    expect(passwordFault(password, "m.kolm", besideCode, usualLimits)).toBe(fault);
  });

  test("counts signs, not bytes, and asks for no kinds of them", () => {
    expect(signsOf("ö".normalize("NFD").repeat(3))).toBe(3);
    expect(passwordFault("quiet lamp river sail", "m.kolm", false, usualLimits)).toBeUndefined();
  });
});

describe("secrets", () => {
  test("tokens hold 256 bits and none comes twice", () => {
    const tokens = new Set(Array.from({ length: 1000 }, sessionToken));
    expect(tokens.size).toBe(1000);
    expect([...tokens].every((token) => Buffer.from(token, "base64url").length === 32)).toBe(true);
  });

  // FIPS 180-4's example "abc"
  test("are kept as SHA-256", () => {
    expect(sha256Hex("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });

  test("a recovery code is read however it is typed, and a one-time password has its groups", () => {
    const code = recoveryCode();
    expect(recoveryHash(code.toUpperCase().replaceAll("-", " "))).toBe(recoveryHash(code));
    expect(oneTimePassword()).toMatch(/^([a-z2-7]{4}-){4}[a-z2-7]{4}$/);
  });
});

describe("waiting", () => {
  const at = "2026-11-26T10:00:00.000Z";
  const later = (seconds: number) => new Date(Date.parse(at) + seconds * 1000);

  test.each([
    [4, 0, 0],
    [5, 0, 2],
    [6, 0, 4],
    [8, 10, 6],
    [13, 0, 512],
    [14, 0, 900],
    [5000, 0, 900],
    [5000, 900, 0],
  ])("after %d wrong tries and %d s: %d s", (wrong, gone, wait) => {
    expect(secondsToWait(wrong, at, later(gone), usualLimits)).toBe(wait);
  });

  test("so many a minute, refilled evenly", () => {
    const bucket = new TokenBucket(3);
    expect([1, 2, 3, 4].map(() => bucket.take("a", 0))).toEqual([0, 0, 0, 20]);
    expect(bucket.take("b", 0)).toBe(0);
    expect(bucket.take("a", 20_000)).toBe(0);
    expect(bucket.take("a", 20_001)).toBe(20);
  });
});
