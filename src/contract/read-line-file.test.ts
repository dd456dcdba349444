import { describe, expect, test } from "vitest";
import type { Instant } from "../core/calendar/index.ts";
import { measured, seal, type RegisterEvent } from "../register/index.ts";
import { readLineFile } from "./index.ts";

const base = {
  shape: 1,
  happenedAt: "2026-11-26T09:00+00:00" as Instant,
  writtenAt: "2026-11-26T09:01+00:00" as Instant,
  author: { initials: "MK", role: "inserter", account: "" },
  device: "room",
  policyVersion: "abcd1234",
  seen: 0,
} as const;
const person: RegisterEvent = {
  ...base,
  id: "p-1",
  subject: "patient:one",
  type: "PatientRegistered",
  data: { name: measured("ROWAN, Edda"), number: measured("P-20418") },
};
const placing: RegisterEvent = {
  ...base,
  id: "l-1",
  subject: "line:one",
  type: "LineInserted",
  data: { patient: measured("one"), arm: measured("right"), outsideCm: measured(2) },
};

describe("a file of a line's events", () => {
  test("a list, and an export with places a store gave, read the same", () => {
    const events = [seal(person), seal(placing)];
    const exported = {
      events: events.map((event, at) => ({ ...event, position: at + 7, version: 1, chainHash: "00" })),
    };
    for (const file of [events, exported]) {
      const reading = readLineFile(JSON.stringify(file));
      if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
      expect(reading.lines[0]?.patient?.name).toBe("ROWAN, Edda");
      expect(reading.lines[0]?.line.outside[0]?.value).toBe(2);
    }
  });

  test("every fault names the event it is in", () => {
    const broken = [seal(person), { ...seal(placing), device: "another" }];
    const reading = readLineFile(JSON.stringify(broken));
    expect(reading.kind === "faults" && reading.faults.map(({ path, code }) => `${path} ${code}`)).toEqual([
      "events.1.contentHash contradicts",
    ]);
    const told = (text: string) => {
      const one = readLineFile(text);
      return one.kind === "faults" ? one.faults.map(({ code }) => code) : [];
    };
    expect(told("{}")).toEqual(["wrong-type"]);
    expect(told("[null]")).toEqual(["wrong-type"]);
    expect(told("[]")).toEqual([]);
  });
});
