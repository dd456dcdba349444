import { afterAll, beforeAll, expect, test } from "vitest";
import { openPostgresql } from "../../src/store/index.ts";
import { startPostgresql, type PostgresqlServer } from "../store-contract/postgresql-server.ts";
import { cookieOf, measured, sealed, serverKit } from "./server-kit.ts";

let postgresql: PostgresqlServer | undefined;
beforeAll(async () => {
  postgresql = await startPostgresql();
});
afterAll(() => postgresql?.stop());

// Where PostgreSQL is not installed the same statements have run on SQLite in every other file of this folder.
test("people, entries and the trail on PostgreSQL, by the same statements", async () => {
  if (!postgresql) return expect(postgresql).toBeUndefined();
  const connection = await openPostgresql(await postgresql.url("people"));
  const kit = await serverKit({ connection });
  const keeper = await kit.person("keeper", ["administrator"]);
  const made = await kit.ask("POST", "/api/people", {
    cookie: keeper,
    body: { account: "m.kolm", roles: ["inserter"] },
  });
  const { oneTimePassword: password } = (await made.json()) as { oneTimePassword: string };
  const sign = (typed: string) =>
    kit.ask("POST", "/api/sign-in", { body: { account: "m.kolm", password: typed, code: "" } });
  expect((await sign("wrong")).status).toBe(401);
  const cookie = cookieOf(await sign(password));
  const body = { password, next: "quiet lamp river sail" };
  expect((await kit.ask("POST", "/api/password", { cookie, body })).status).toBe(204);
  const event = sealed("patient:p1", "PatientRegistered", { ward: measured("7B") });
  const offers = [{ subject: event.subject, expectedVersion: 0, events: [event] }];
  expect((await kit.ask("POST", "/api/offers", { cookie, body: offers })).status).toBe(200);
  expect((await kit.ask("GET", "/api/record/p1", { cookie })).status).toBe(200);
  expect(await kit.parts.people.persons.useStep("m.kolm", 7)).toBe(true);
  expect(await kit.parts.people.persons.useStep("m.kolm", 7)).toBe(false);
  // thirty at once stand in line and the chain holds
  await Promise.all(Array.from({ length: 30 }, () => kit.ask("GET", "/api/record/p1", { cookie })));
  const rows = await kit.parts.people.trail.after(0, 500);
  expect([rows.length, rows.at(-1)?.position]).toEqual([38, 38]);
  expect(await kit.parts.people.trail.firstBroken()).toBeUndefined();
  for (const statement of ["UPDATE trail SET account = 'x'", "DELETE FROM trail", "TRUNCATE trail"]) {
    await expect(connection.run(statement)).rejects.toThrow(/only added to/);
  }
  await connection.close();
});
