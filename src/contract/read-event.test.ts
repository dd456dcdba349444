import { describe, expect, test } from "vitest";
import type { Instant } from "../core/calendar/index.ts";
import { lineEvents, seal, type RegisterEvent } from "../register/index.ts";
import { entryFaults, eventFaults, readEntryDraft } from "./index.ts";

const event: RegisterEvent = {
  id: "5f0c2a10-0000-4000-8000-000000000001",
  subject: "line:a1",
  type: "LineUsed",
  shape: 1,
  happenedAt: "2026-11-26T09:00+00:00" as Instant,
  writtenAt: "2026-11-26T09:01+00:00" as Instant,
  author: { initials: "MK", role: "ward nurse", account: "" },
  device: "ward tablet",
  policyVersion: "abcd1234",
  seen: 1,
  data: { what: { value: "vesicant", from: "measured" } },
};
const codes = (value: unknown) => eventFaults(value).map(({ path, code }) => `${path} ${code}`);

describe("an event from outside", () => {
  test("a whole one has no fault", () => expect(codes(seal(event))).toEqual([]));

  test("one letter changed after sealing is found", () => {
    expect(codes({ ...seal(event), device: "other tablet" })).toEqual(["contentHash contradicts"]);
  });

  test("a year no clock was ever set to, and a number no person counts to, are told and not kept", () => {
    for (const year of ["0001", "1879", "2151", "9999"]) {
      const at = `${year}-03-01T09:00+00:00` as Instant;
      expect(codes(seal({ ...event, happenedAt: at }))).toEqual(["happenedAt no-such-date"]);
      expect(codes(seal({ ...event, writtenAt: at }))).toEqual(["writtenAt no-such-date"]);
      const nextOn = { value: `${year}-03-01`, from: "measured" };
      expect(codes(seal({ ...event, type: "CareGiven", data: { nextOn } }))).toEqual(["data.nextOn no-such-date"]);
    }
    for (const key of ["shape", "seen"]) expect(codes({ ...seal(event), [key]: 1e300 })).toEqual([`${key} wrong-type`]);
    expect(codes({ ...seal(event), seen: 2 ** 53 })).toEqual(["seen wrong-type"]);
  });

  test("every fault is told, not the first alone", () => {
    const bad = {
      ...seal(event),
      subject: "line:../x",
      happenedAt: "2026-02-30T09:00Z",
      author: { initials: "", role: "doctor", account: "" },
      data: { what: { value: "soup", from: "guess" }, salt: { value: 1, from: "told" } },
      surprise: true,
    };
    expect(codes(bad)).toEqual([
      "surprise unknown-field",
      "subject wrong-type",
      "happenedAt wrong-type",
      "author.initials wrong-type",
      "author.role not-in-list",
      "data.what.from not-in-list",
      "data.what not-in-list",
      "data.salt unknown-field",
    ]);
  });

  test("keys that would reach a prototype are unknown fields like any other", () => {
    const data = JSON.parse(
      '{"__proto__":{"value":1,"from":"told"},"constructor":{"value":1,"from":"told"}}',
    ) as unknown;
    expect(entryFaults(lineEvents.LineUsed, data).map(({ code }) => code)).toEqual(["unknown-field", "unknown-field"]);
    expect(codes({ ...seal(event), subject: "line:a1", type: "constructor" })).toEqual(["type not-in-list"]);
  });
});

describe("what is typed", () => {
  const read = (field: keyof (typeof lineEvents)["CareGiven"], text: string) => {
    const { entry, faults } = readEntryDraft(lineEvents.CareGiven, { [field]: { text } });
    return faults[0]?.code ?? entry[field];
  };
  test("a comma is a decimal, a word of absence is an absence, and nothing is nothing", () => {
    expect(read("outsideCm", "3,5")).toEqual({ value: 3.5, from: "measured" });
    expect(read("outsideCm", "n/k")).toEqual({ missing: "not known" });
    expect(read("outsideCm", "refused")).toEqual({ missing: "refused" });
    expect(read("outsideCm", " ")).toBeUndefined();
  });
  test("what cannot be is told", () => {
    expect(read("outsideCm", "410")).toBe("out-of-range");
    expect(read("outsideCm", "1.234")).toBe("thousands-separator");
    expect(read("nextOn", "2026-02-29")).toBe("no-such-date");
    expect(read("bloodReturn", "maybe")).toBe("not-in-list");
  });
});
