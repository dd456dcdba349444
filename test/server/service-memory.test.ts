import { beforeEach, describe, expect, test } from "vitest";
import type { SealedEvent } from "../../src/register/index.ts";
import { sealed, serverKit, type Kit } from "./server-kit.ts";

// Who may write what a service keeps of its own numbers: common practice, no source. The lead sets bases and actions;
// who looks after infection may keep and look at a signal; nobody else does either.
let kit: Kit;
beforeEach(async () => {
  kit = await serverKit();
});

const told = (value: unknown) => ({ value, from: "told" });
const signalOf = { measure: told("thrombosis"), signalOn: told("2026-05-03"), base: told("b1") };
const base = (more: object = {}) =>
  sealed("service:here", "WatchBaseSet", {
    measure: told("thrombosis"),
    baseFrom: told("2025-01-01"),
    baseTo: told("2026-01-01"),
    baseEvents: told(24),
    baseLineDays: told(15_000),
    decision: told(2.7),
    ruleVersion: told("1"),
    by: told("L. Orr"),
    why: told("First full year"),
    ...more,
  });
const look = () =>
  sealed("service:here", "SignalLookedAt", { ...signalOf, by: told("A. Wren"), found: told("practice") });
const action = () =>
  sealed("service:here", "ActionAgreed", {
    month: told("2026-04"),
    action: told("Smaller lines"),
    ownerRole: told("lead"),
    dueOn: told("2026-05-20"),
    measure: told("thrombosis"),
  });

const offer = async (cookie: string, event: SealedEvent) => {
  const body = [{ subject: event.subject, expectedVersion: (await kit.store.head()).position, events: [event] }];
  const response = await kit.ask("POST", "/api/offers", { cookie, body });
  return { status: response.status, text: await response.text() };
};

describe("the service's own numbers", () => {
  test("the lead sets a base and agrees on an action; a nurse, an inserter and the stores do not", async () => {
    for (const role of ["ward nurse", "inserter", "stores", "infection control"] as const) {
      const cookie = await kit.person(`a.${role.replace(" ", "")}`, [role]);
      for (const event of [base(), action()]) {
        const { text } = await offer(cookie, event);
        expect(text, `${role} ${event.type}`).not.toContain('"accepted"');
      }
    }
    expect((await kit.store.head()).position).toBe(0);
    const lead = await kit.person("l.orr", ["lead"]);
    expect((await offer(lead, base())).text).toContain('"accepted"');
    expect((await offer(lead, action())).text).toContain('"accepted"');
  });

  test("what was invented to rehearse, and the numbers of another service, are not taken from anybody", async () => {
    const lead = await kit.person("l.orr", ["lead"]);
    const invented = sealed("patient:practice-birk", "PatientRegistered", { name: told("Heron") });
    const tied = sealed("line:l1", "LineInserted", { patient: told("practice-birk") });
    const numbers = ["service:practice-here", "service:elsewhere"].map((subject) =>
      sealed(subject as "service:elsewhere", "PracticeChanged", {
        changedOn: told("2026-01-05"),
        words: told("Valve"),
      }),
    );
    for (const event of [invented, tied, ...numbers]) {
      const { status, text } = await offer(lead, event);
      expect([status, text.includes('"path":"0.subject","code":"contradicts"')], event.subject).toEqual([422, true]);
    }
    expect((await kit.store.head()).position).toBe(0);
  });

  test("infection control writes what was found; a nurse does not", async () => {
    const nurse = await kit.person("a.wren", ["ward nurse"]);
    expect((await offer(nurse, look())).text).not.toContain('"accepted"');
    const control = await kit.person("i.bell", ["infection control"]);
    expect((await offer(control, look())).text).toContain('"accepted"');
  });

  test("whoever stands on a ward writes its month, an account of some wards only theirs, the stores none", async () => {
    const month = (ward: string) =>
      sealed("service:here", "WardMonthCounted", {
        ward: told(ward),
        month: told("2026-10"),
        linesCounted: told("lines of this service"),
        patientDays: told(640),
        dailyLineDays: told(120),
      });
    const stores = await kit.person("s.ash", ["stores"]);
    expect((await offer(stores, month("7B"))).text).toContain("role-may-not-write");
    const own = await kit.person("a.wren", ["ward nurse"], ["7B"]);
    expect((await offer(own, month("9A"))).text).toContain("own-unit-only");
    expect((await offer(own, month("7B"))).text).toContain('"accepted"');
    const anywhere = await kit.person("r.bell", ["ward nurse"]);
    expect((await offer(anywhere, month("9A"))).text).toContain('"accepted"');
    const odd = await offer(
      anywhere,
      sealed("service:here", "WardMonthCounted", { sampledDays: told(6), ward: told("9A") }),
    );
    expect([odd.status, odd.text.includes("sampledDays")]).toEqual([422, true]);
  });

  test("a value outside its field is turned back with its place", async () => {
    const lead = await kit.person("l.orr", ["lead"]);
    const { status, text } = await offer(lead, base({ baseEvents: told(0), decision: told(99) }));
    expect(status).toBe(422);
    expect(text).toContain("baseEvents");
    expect(text).toContain("decision");
  });

  test("stock lists them beside the boxes, and nothing in them names a line or a person treated", async () => {
    const lead = await kit.person("l.orr", ["lead"]);
    await offer(lead, base());
    const response = await kit.ask("GET", "/api/stock", { cookie: lead });
    const { events } = (await response.json()) as { readonly events: readonly SealedEvent[] };
    expect(events.map(({ type }) => type)).toEqual(["WatchBaseSet"]);
    expect(JSON.stringify(events)).not.toMatch(/line:|patient:/);
  });
});
