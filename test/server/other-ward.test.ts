import { beforeEach, describe, expect, test } from "vitest";
import type { SealedEvent } from "../../src/register/index.ts";
import { measured, sealed, serverKit, type Kit } from "./server-kit.ts";

// What a late or wrong offer may not tell or change: least privilege, the server's own rule (decision 0015).

let kit: Kit;
beforeEach(async () => {
  kit = await serverKit();
});

const offer = async (cookie: string, event: SealedEvent, expectedVersion: number) => {
  const body = [{ subject: event.subject, expectedVersion, events: [event] }];
  const response = await kit.ask("POST", "/api/offers", { cookie, body });
  return { status: response.status, text: await response.text() };
};
const registered = sealed("patient:p1", "PatientRegistered", {
  name: measured("Ottilie Framm"),
  number: measured("774411"),
  ward: measured("7B"),
});
const inserted = sealed("line:l1", "LineInserted", { patient: measured("p1"), ward: measured("7B") });
const care = (outsideCm: number) =>
  sealed(
    "line:l1",
    "CareGiven",
    { outsideCm: measured(outsideCm) },
    {
      author: { initials: "HN", role: "ward nurse", account: "" },
    },
  );

describe("a nurse of one ward", () => {
  test("neither writes about another ward's patient nor learns of them by a late offer", async () => {
    const lead = await kit.person("m.kolm", ["inserter"]);
    expect((await offer(lead, registered, 0)).status).toBe(200);
    expect((await offer(lead, inserted, 0)).status).toBe(200);
    const nurse = await kit.person("h.nott", ["ward nurse"], ["8A"]);
    for (const version of [0, 1]) {
      const answer = await offer(nurse, care(2), version);
      expect(answer.status).toBe(403);
      expect(answer.text).not.toContain("p1");
    }
    expect(await kit.store.readSubject("line:l1")).toHaveLength(1);
  });

  test("of the patient's own ward is told that the record moved on, and not what others wrote", async () => {
    const lead = await kit.person("m.kolm", ["inserter"]);
    await offer(lead, registered, 0);
    await offer(lead, inserted, 0);
    const nurse = await kit.person("h.nott", ["ward nurse"], ["7B"]);
    const late = await offer(nurse, care(2), 0);
    expect(late.status).toBe(200);
    expect(JSON.parse(late.text)).toEqual({ answers: [{ kind: "moved on", version: 1, since: [] }] });
  });
});

describe("a corrected value", () => {
  test("is held against the field it corrects", async () => {
    const lead = await kit.person("m.kolm", ["lead"]);
    const inserter = await kit.person("i.nser", ["inserter"]);
    await offer(inserter, registered, 0);
    await offer(inserter, inserted, 0);
    const correct = (field: string, value: unknown) =>
      sealed(
        "line:l1",
        "ValueCorrected",
        { event: inserted.id, field, value: measured(value), why: "misread" },
        { author: { initials: "LD", role: "lead", account: "" } },
      );
    for (const [field, value] of [
      ["outsideCm", 1e308],
      ["arm", "middle"],
      ["constructor", 1],
    ] as const) {
      expect((await offer(lead, correct(field, value), 1)).status).toBe(422);
    }
    expect((await offer(lead, correct("arm", "left"), 1)).status).toBe(200);
  });
});
