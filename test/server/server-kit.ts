import { randomUUID } from "node:crypto";
import type { Hono } from "hono";
import { seal, type AccountRole, type EventStore, type SealedEvent, type Subject } from "../../src/register/index.ts";
import { app } from "../../src/server/app.ts";
import { makeAccount } from "../../src/server/people/account.ts";
import { usualLimits, type PeopleLimits } from "../../src/server/people/people-limits.ts";
import { begin } from "../../src/server/people/sign-in.ts";
import { PatientReader } from "../../src/server/record/patient-reader.ts";
import type { ServerParts } from "../../src/server/server-parts.ts";
import { openPeople, openSqlite, sqlEventStore, type SqlConnection } from "../../src/store/index.ts";

export interface Kit {
  readonly server: Hono;
  readonly parts: ServerParts;
  readonly store: EventStore;
  readonly lines: string[];
  readonly connection: SqlConnection;
  /** Moves the server's clock. */
  readonly later: (seconds: number) => void;
  /** An account with a session, made without typing a password: its cookie. */
  readonly person: (account: string, roles: readonly AccountRole[], units?: readonly string[]) => Promise<string>;
  readonly ask: (method: string, path: string, more?: Asked) => Promise<Response>;
}
export interface Asked {
  readonly cookie?: string;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
}

const FROM = { address: "", request: "test" };

/** A server on databases in memory and a clock of its own. */
export async function serverKit(
  more: Partial<ServerParts> & { readonly limits?: PeopleLimits; readonly connection?: SqlConnection } = {},
): Promise<Kit> {
  const connection = more.connection ?? (await openSqlite(":memory:"));
  const people = await openPeople(connection);
  const store = more.store ?? (await sqlEventStore(connection));
  const lines: string[] = [];
  let nowMs = Date.parse("2026-11-26T10:00:00Z");
  const parts: ServerParts = {
    people,
    store,
    patients: new PatientReader(store),
    limits: usualLimits,
    now: () => new Date(nowMs),
    secure: false,
    hostNames: ["localhost"],
    log: (line) => lines.push(line),
    newId: randomUUID,
    ...more,
  };
  const server = app("dist/web", parts);
  return {
    server,
    parts,
    store,
    lines,
    connection,
    later: (seconds) => {
      nowMs += seconds * 1000;
    },
    person: async (account, roles, units = []) => {
      await makeAccount(parts, FROM, "", { account, roles, units });
      await people.persons.change(account, { changeWanted: false, passwordUntil: "" });
      const made = await people.persons.find(account);
      if (!made) throw new Error("the account was just made");
      return `veinwright=${(await begin(parts, FROM, made)).token}`;
    },
    ask: async (method, path, { cookie, body, headers } = {}) =>
      server.request(path, {
        method,
        headers: {
          "x-veinwright": "1",
          "content-type": "application/json",
          ...(cookie ? { cookie } : {}),
          ...headers,
        },
        ...(method === "GET" ? {} : { body: typeof body === "string" ? body : JSON.stringify(body ?? {}) }),
      }),
  };
}

/** The session a sign-in answered with. */
export const cookieOf = (response: Response): string => (response.headers.get("set-cookie") ?? "").split(";")[0] ?? "";

/** A sealed entry of an invented line or patient. */
export function sealed(
  subject: Subject,
  type: string,
  data: Readonly<Record<string, unknown>>,
  more: Partial<SealedEvent> = {},
): SealedEvent {
  return seal({
    id: randomUUID(),
    subject,
    type,
    shape: 1,
    happenedAt: "2026-11-25T09:00:00+01:00",
    writtenAt: "2026-11-25T09:05:00+01:00",
    author: { initials: "MK", role: "inserter", account: "" },
    device: "tablet of the test",
    policyVersion: "test",
    seen: 0,
    data,
    ...more,
  } as SealedEvent);
}

export const measured = (value: unknown) => ({ value, from: "measured" });
