import { beforeEach, describe, expect, test } from "vitest";
import type { SealedEvent } from "../../src/register/index.ts";
import { measured, sealed, serverKit, type Kit } from "./server-kit.ts";

let kit: Kit;
beforeEach(async () => {
  kit = await serverKit();
});

const offer = async (cookie: string, ...offers: readonly object[]) => {
  const response = await kit.ask("POST", "/api/offers", { cookie, body: offers });
  return { status: response.status, json: (await response.json()) as Record<string, never> };
};
const of = (event: SealedEvent, expectedVersion = 0) => ({ subject: event.subject, expectedVersion, events: [event] });
const registered = () =>
  sealed("patient:p1", "PatientRegistered", {
    name: measured("Ottilie Framm"),
    number: measured("774411"),
    ward: measured("7B"),
  });
const care = (more: Partial<SealedEvent> = {}) => sealed("line:l1", "CareGiven", { outsideCm: measured(2.5) }, more);
const inserted = (more: Partial<SealedEvent> = {}) =>
  sealed("line:l1", "LineInserted", { patient: measured("p1"), ward: measured("7B") }, more);

describe("entries", () => {
  test("are taken, sent twice change nothing, and come back to whoever may read", async () => {
    const cookie = await kit.person("m.kolm", ["inserter"]);
    const [a, b] = [of(registered()), of(inserted())];
    const first = await offer(cookie, a, b);
    expect(first.json["answers"]).toMatchObject([{ kind: "accepted", version: 1 }, { kind: "accepted" }]);
    expect(await offer(cookie, a, b)).toEqual(first);
    expect((await offer(cookie, of(care()))).json["answers"]).toMatchObject([{ kind: "moved on", version: 1 }]);
    const { events } = (await (await kit.ask("GET", "/api/events?after=1&limit=5", { cookie })).json()) as {
      events: readonly SealedEvent[];
    };
    expect(events.map(({ type }) => type)).toEqual(["LineInserted"]);
    const head = (await (await kit.ask("GET", "/api/head", { cookie })).json()) as { position: number };
    expect(head.position).toBe(2);
  });

  test("with faults are turned back whole, every fault with its place and code, never the value", async () => {
    const cookie = await kit.person("m.kolm", ["inserter"]);
    const faulty = care({ data: { outsideCm: measured(4000), "Ottilie Framm": measured(1) } as never });
    const { status, json } = await offer(cookie, of(registered()), { ...of(faulty), events: [care(), faulty] });
    expect(status).toBe(422);
    expect(json["faults"]).toEqual([
      { path: "1.events.1.data.outsideCm", code: "out-of-range" },
      { path: "1.events.1.data", code: "unknown-field" },
    ]);
    expect(JSON.stringify(json)).not.toMatch(/Ottilie|4000/);
    expect((await kit.store.head()).position).toBe(0);
    const other = { ...of(care()), subject: "line:l2" };
    expect((await offer(cookie, other)).json["faults"]).toEqual([{ path: "0.events.0.subject", code: "contradicts" }]);
    const changed = { ...care(), device: "another" };
    expect((await offer(cookie, of(changed))).json["faults"]).toEqual([
      { path: "0.events.0.contentHash", code: "contradicts" },
    ]);
  });

  test("are held to the roles of who sends them and to whom they are signed", async () => {
    const nurse = await kit.person("a.wren", ["ward nurse"]);
    const scribe = await kit.person("s.pell", ["scribe"]);
    await kit.person("m.kolm", ["inserter"]);
    const author = { initials: "MK", role: "inserter", account: "m.kolm" } as const;
    const refused = async (cookie: string, event: SealedEvent) => (await offer(cookie, of(event))).json["faults"];
    expect(await refused(nurse, inserted())).toEqual([{ path: "0.events.0", code: "role-may-not-write" }]);
    expect(await refused(nurse, care({ author }))).toEqual([{ path: "0.events.0", code: "another-account" }]);
    expect((await offer(scribe, of(inserted({ author })))).status).toBe(200);
    expect((await offer(nurse, of(care(), 1))).status).toBe(200);
    await kit.parts.people.persons.change("m.kolm", { disabled: true });
    expect(await refused(scribe, care({ author }))).toEqual([{ path: "0.events.0", code: "another-account" }]);
    const stored = await kit.store.readSubject("line:l1");
    const voids = (role: "ward nurse") =>
      sealed(
        "line:l1",
        "EventVoided",
        { event: stored[0]?.id, why: "not this patient" },
        { author: { initials: "AW", role, account: "a.wren" } },
      );
    expect(await refused(nurse, voids("ward nurse"))).toEqual([{ path: "0.events.0", code: "role-may-not-write" }]);
  });
});

describe("a role that no account holds", () => {
  test("releases nothing over the interface, whoever carries it; the fact beside it is taken", async () => {
    const lead = await kit.person("l.orr", ["lead"]);
    const said = { uses: measured(["blood"]), releasedBy: measured("M Kolm"), toldTo: measured("A Wren") };
    const author = { initials: "MK", role: "lead", account: "" } as const;
    const release = (by: object) => sealed("line:l1", "LineReleased", said, { author: { ...author, ...by } });
    expect((await offer(lead, of(inserted()))).status).toBe(200);
    const refused = await offer(lead, of(release({}), 1));
    expect([refused.status, refused.json["faults"]]).toEqual([403, [{ path: "0.events.0", code: "account-wanted" }]]);
    expect((await kit.store.head()).position).toBe(1);
    const nobody = await offer(lead, of(release({ account: "nobody" }), 1));
    expect(nobody.json["faults"]).toEqual([{ path: "0.events.0", code: "another-account" }]);
    expect((await offer(lead, of(release({ account: "l.orr" }), 1))).status).toBe(200);
  });
});

describe("one record", () => {
  test("of another ward is opened in need: a reason, four hours, a banner, a line of the trail and a review", async () => {
    const inserter = await kit.person("m.kolm", ["inserter"]);
    await offer(inserter, of(registered()), of(inserted()));
    const nurse = await kit.person("a.wren", ["ward nurse"], ["4C"]);
    const own = await kit.person("c.moss", ["ward nurse"], ["7B"]);
    const read = async (cookie: string, patient = "p1") => kit.ask("GET", `/api/record/${patient}`, { cookie });
    expect((await kit.ask("GET", "/api/events", { cookie: nurse })).status).toBe(403);
    expect((await read(own)).status).toBe(200);
    // nobody learns by asking who is here
    expect([(await read(nurse)).status, (await read(nurse, "p2")).status]).toEqual([403, 403]);
    await kit.parts.people.persons.change("a.wren", { passwordHash: "" });
    const body = { patient: "p1", reason: "line bleeding, called to 7B", password: "" };
    const opened = await kit.ask("POST", "/api/break-glass", { cookie: nurse, body });
    expect(opened.status).toBe(201);
    const { id, banner, events } = (await opened.json()) as { id: string; banner: object; events: readonly object[] };
    expect([banner, events.length]).toEqual([{ until: "2026-11-26T14:00:00.000Z", reason: body.reason }, 2]);
    expect(await (await read(nurse)).json()).toMatchObject({ banner });
    expect((await read(nurse, "p2")).status).toBe(403);
    kit.later(4 * 3600);
    expect((await read(nurse)).status).toBe(403);
    const lead = await kit.person("l.orr", ["lead"]);
    const list = (await (await kit.ask("GET", "/api/break-glass", { cookie: lead })).json()) as { opened: object[] };
    expect(list.opened).toMatchObject([{ id, account: "a.wren", patient: "p1", reviewedBy: "" }]);
    const review = { cookie: lead, body: { finding: "called, as the ward says" } };
    expect((await kit.ask("POST", `/api/break-glass/${id}/review`, review)).status).toBe(204);
    expect((await kit.ask("POST", `/api/break-glass/${id}/review`, review)).status).toBe(409);
  });

  test("stores see boxes and no patient", async () => {
    const inserter = await kit.person("m.kolm", ["inserter"]);
    await offer(inserter, of(registered()));
    const stores = await kit.person("p.nye", ["stores"]);
    await offer(
      stores,
      of(
        sealed(
          "lot:x1",
          "LotRecalled",
          { why: measured("maker's letter") },
          { author: { initials: "PN", role: "stores", account: "p.nye" } },
        ),
      ),
    );
    const { events } = (await (await kit.ask("GET", "/api/stock", { cookie: stores })).json()) as {
      events: readonly SealedEvent[];
    };
    expect(events.map(({ subject }) => subject)).toEqual(["lot:x1"]);
    expect((await kit.ask("GET", "/api/record/p1", { cookie: stores })).status).toBe(403);
  });
});

describe("the trail", () => {
  test("says who did what to which subject, holds no clinical text, and is only added to", async () => {
    const cookie = await kit.person("m.kolm", ["inserter"]);
    await offer(cookie, of(registered()));
    await kit.ask("GET", "/api/events", { cookie });
    await kit.ask("GET", "/api/record/p1", { cookie });
    await kit.ask("GET", "/api/people", { cookie });
    const auditor = await kit.person("r.adler", ["auditor"]);
    const { rows } = (await (await kit.ask("GET", "/api/trail", { cookie: auditor })).json()) as {
      rows: { what: string }[];
    };
    expect(rows.map(({ what }) => what)).toEqual([
      "account made",
      "signed in",
      "entries taken",
      "record copied",
      "record opened",
      "refused",
      "account made",
      "signed in",
    ]);
    expect(JSON.stringify(rows)).not.toMatch(/Ottilie|774411/);
    expect(await kit.parts.people.trail.firstBroken()).toBeUndefined();
    for (const statement of ["UPDATE trail SET account = 'x'", "DELETE FROM trail"]) {
      await expect(kit.connection.run(statement)).rejects.toThrow(/only added to/);
    }
    const keeper = await kit.person("keeper", ["administrator"]);
    const seen = (await (await kit.ask("GET", "/api/trail", { cookie: keeper })).json()) as {
      rows: { what: string }[];
    };
    expect(new Set(seen.rows.map(({ what }) => what))).toEqual(new Set(["account made", "signed in"]));
  });

  test("a line changed behind the server's back is found, and where", async () => {
    const keeper = await kit.person("keeper", ["administrator"]);
    await kit.ask("GET", "/api/me", { cookie: keeper });
    await kit.connection.run("DROP TRIGGER trail_no_update");
    await kit.connection.run("UPDATE trail SET account = 'somebody' WHERE position = 2");
    const said = (await (await kit.ask("GET", "/api/verify", { cookie: keeper })).json()) as {
      good: boolean;
      lines: string[];
    };
    expect(said).toEqual({ good: false, lines: ["trail: broken at 2"] });
  });
});

test("the log has a line for each request and nothing that a person typed", async () => {
  const cookie = await kit.person("m.kolm", ["inserter"]);
  await offer(cookie, of(registered()));
  await kit.ask("GET", "/api/record/p1", { cookie });
  await kit.ask("GET", "/api/nothing/Ottilie", { cookie });
  await kit.ask("POST", "/api/sign-in", { body: { account: "m.kolm", password: "Ottilie Framm", code: "" } });
  await kit.ask("POST", "/api/offers", { cookie, body: '{"Ottilie": Framm' });
  expect(kit.lines.map((line) => (JSON.parse(line) as { route: string; status: number }).route)).toEqual([
    "/api/offers",
    "/api/record/{patient}",
    "none",
    "/api/sign-in",
    "/api/offers",
  ]);
  for (const line of kit.lines) {
    expect(Object.keys(JSON.parse(line) as object)).toEqual(["at", "request", "method", "route", "status", "ms"]);
  }
  expect(kit.lines.join("\n")).not.toMatch(/Ottilie|Framm|774411|p1\b|m\.kolm/);
});

test("a request sent in pieces keeps its name in refusal and log", async () => {
  const cookie = await kit.person("m.kolm", ["inserter"]);
  const body = new ReadableStream({
    start: (stream) => {
      stream.enqueue(new TextEncoder().encode("[]"));
      stream.close();
    },
  });
  const asked = { method: "POST", body, duplex: "half", headers: { "x-veinwright": "1", cookie } };
  const response = await kit.server.request("/api/offers", {
    ...asked,
    headers: { ...asked.headers, "content-type": "application/json" },
  });
  const { request } = (await response.json()) as { readonly request: string };
  expect(response.status).toBe(422);
  expect(request).not.toBe("");
  expect(JSON.parse(kit.lines.at(-1) ?? "{}")).toMatchObject({ request, route: "/api/offers", status: 422 });
});
