import { expect, test } from "vitest";
import type { Instant } from "../core/calendar/index.ts";
import { seal, told, type RegisterEvent } from "../register/index.ts";
import { readMemory } from "./read-memory.ts";

// A file of the service's own events: read whole, seal included, or not at all.
const event = (id: string, data: RegisterEvent["data"], subject: RegisterEvent["subject"] = "service:here") =>
  seal({
    id,
    subject,
    type: subject.startsWith("lot") ? "LotRecalled" : "PracticeChanged",
    shape: 1,
    happenedAt: "2026-03-01T09:00+00:00" as Instant,
    writtenAt: "2026-03-01T09:00+00:00" as Instant,
    author: { initials: "LO", role: "lead", account: "" },
    device: "desk",
    policyVersion: "1",
    seen: 0,
    data,
  });
const change = event("c1", { changedOn: told("2026-03-01"), words: told("New valve") });
const recall = event("r1", { why: told("leaks") }, "lot:77");

test("a list, or what the server answers, gives the same memory; boxes are passed over", () => {
  const stored = { ...change, position: 4, version: 1, chainHash: "00" };
  for (const text of [JSON.stringify([change]), JSON.stringify({ events: [recall, stored], upTo: 4 })]) {
    const read = readMemory(text);
    expect(read.kind === "memory" && read.memory.changes.map(({ words }) => words)).toEqual(["New valve"]);
  }
});

test("a changed word breaks the seal and the file is refused", () => {
  const forged = { ...change, data: { ...change.data, words: told("Old valve") } };
  const read = readMemory(JSON.stringify([change, forged]));
  expect(read.kind === "faults" && read.faults.map(({ path }) => path)).toEqual(["1.contentHash"]);
});

test("what is no list of events is refused with its rule", () => {
  for (const text of ["", "{}", "null", '"x"', "[1]", "[null]"]) expect(readMemory(text).kind, text).toBe("faults");
  const none = readMemory("[]");
  expect(none.kind === "memory" && none.memory.bases).toEqual([]);
});
