import { expect, test } from "vitest";
import { told, type RegisterEvent } from "../register/index.ts";
import { readMemory } from "./read-memory.ts";
import { inventedEntry, LEAD } from "../../test/invented-entry.ts";

// A file of the service's own events: read whole, seal included, or not at all.
const event = (
  id: string,
  data: RegisterEvent["data"],
  subject: RegisterEvent["subject"] = "service:here",
  type = subject.startsWith("lot") ? "LotRecalled" : "PracticeChanged",
) => inventedEntry({ id, subject, type, at: "2026-03-01T09:00+00:00", author: LEAD, data });
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

test.each<readonly [string, unknown]>([
  ["words that are none", { evil: 1 }],
  ["a number", 1e300],
  ["signs that cannot be seen", "New\u202evalve"],
])("a correction to %s is held against its field", (_what, value) => {
  const corrected = { event: "c1", field: "words", value: { value, from: "told" }, why: "slip" };
  const read = readMemory(JSON.stringify([change, event("v1", corrected as never, "service:here", "ValueCorrected")]));
  expect(read.kind === "faults" && read.faults.map(({ path }) => path)).toEqual(["1.data.value.words"]);
});

test("an event told twice, one about nothing, another order and an invented service beside the real one are refused", () => {
  const why = { event: "c9", field: "words", value: told("x"), why: "slip" };
  const about = event("v1", why, "service:here", "ValueCorrected");
  const invented = event("p1", { changedOn: told("2026-03-01"), words: told("x") }, "service:practice-here");
  const second = event("c2", { changedOn: told("2026-04-01"), words: told("Old valve") });
  const placed = [
    { ...change, position: 7 },
    { ...second, position: 3 },
  ];
  for (const [list, code] of [
    [[change, change], "twice"],
    [[change, about], "contradicts"],
    [placed, "out-of-order"],
    [[change, invented], "contradicts"],
  ] as const) {
    const read = readMemory(JSON.stringify(list));
    expect(read.kind === "faults" && read.faults.map((fault) => fault.code)).toEqual([code]);
  }
});
