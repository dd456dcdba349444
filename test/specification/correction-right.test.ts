import { describe, expect, test } from "vitest";
import { eventFaults } from "../../src/contract/index.ts";
import { indexPatients, judgeEntry, type RegisterEvent, type SealedEvent } from "../../src/register/index.ts";
import { inventedEntry } from "../invented-entry.ts";

// Who may correct what: least privilege, the record's own rule (decision 0015); common practice, no source.

const event = (id: string, type: string, data: object, role: "stores" | "inserter" = "stores"): SealedEvent =>
  inventedEntry({ id, subject: "patient:p1", type, author: { initials: "ST", role, account: "store-1" }, data });
const stores = { account: "store-1", roles: ["stores"] as const };
const judged = (one: RegisterEvent, known: readonly RegisterEvent[]) =>
  judgeEntry(one, stores, { about: (id) => known.find((other) => other.id === id), holder: () => undefined });
const codes = (value: unknown) => eventFaults(value).map(({ path, code }) => `${path} ${code}`);

describe("a correction", () => {
  test("is not its own witness", () => {
    const own = event("e1", "EventVoided", { event: "e1", why: "mine" });
    expect(codes(own)).toEqual(["data.event contradicts"]);
    expect(judged(own, [own])).toBe("role-may-not-write");
  });

  test("in a ring with another has no entry at its root", () => {
    const first = event("e1", "EventVoided", { event: "e2", why: "ring" });
    const second = event("e2", "EventVoided", { event: "e1", why: "ring" });
    expect(judged(first, [first, second])).toBe("role-may-not-write");
  });

  test("of a correction asks for the right to the entry beneath both", () => {
    const entry = event("e1", "PatientDetailsTaken", {}, "inserter");
    const void1 = event("e2", "EventVoided", { event: "e1", why: "mine" });
    const void2 = event("e3", "EventVoided", { event: "e2", why: "mine" });
    expect(judged(void2, [entry, void1, void2])).toBe("role-may-not-write");
  });

  test("carries nothing but which event, which field, the value and why", () => {
    const more = event("e2", "EventVoided", { event: "e1", why: "x", ward: { value: "3C", from: "measured" } });
    expect(codes(more)).toEqual(["data.ward unknown-field"]);
    const bare = event("e2", "ValueCorrected", { event: "e1", why: "x", field: "name", value: { value: 1, more: 2 } });
    expect(codes(bare)).toEqual(["data.value wrong-type"]);
  });

  test("moves no patient to another ward by itself", () => {
    const index = { patientOf: new Map(), wardOf: new Map([["p1", "7B"]]) };
    indexPatients(index, [event("e2", "EventVoided", { event: "e1", why: "x", ward: { value: "3C" } })]);
    expect(index.wardOf.get("p1")).toBe("7B");
  });
});
