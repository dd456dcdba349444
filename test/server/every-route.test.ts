import { beforeAll, describe, expect, test } from "vitest";
import { ACCOUNT_ROLES, type AccountRole } from "../../src/register/index.ts";
import { routeTable } from "../../src/server/route/route-table.ts";
import { serverKit, type Kit } from "./server-kit.ts";

// Who gets through each route, written out by hand from the service's table of least privilege (common practice, no
// source). "all" is anyone at all, "in" is whoever is signed in; any other row lists those who hold it.
const COPY = "viewer, scribe, ward nurse, home nurse, inserter, infection control, lead";
const BY_HAND: Readonly<Record<string, string>> = {
  "GET /api/health": "all",
  "POST /api/plan": "all",
  "GET /api/openapi.json": "all",
  "POST /api/sign-in": "all",
  "GET /api/openid/start": "all",
  "GET /api/openid/answer": "all",
  "POST /api/sign-out": "in",
  "GET /api/me": "in",
  "POST /api/password": "in",
  "POST /api/second-factor": "in",
  "POST /api/second-factor/on": "in",
  "POST /api/second-factor/off": "in",
  "GET /api/head": COPY,
  "GET /api/events": COPY,
  "POST /api/offers": "scribe, ward nurse, home nurse, inserter, infection control, stores, lead",
  "GET /api/record/{patient}": COPY,
  "POST /api/break-glass": COPY,
  "GET /api/stock": "scribe, inserter, infection control, stores, lead",
  "GET /api/break-glass": "lead",
  "POST /api/break-glass/{id}/review": "lead",
  "GET /api/trail": "lead, auditor, administrator",
  "POST /api/backup": "administrator",
  "GET /api/backup": "administrator",
  "GET /api/verify": "administrator",
  "GET /api/people": "administrator",
  "POST /api/people": "administrator",
  "POST /api/people/{account}": "administrator",
  "POST /api/people/{account}/reset": "administrator",
};

let kit: Kit;
const cookies = new Map<AccountRole, string>();
beforeAll(async () => {
  kit = await serverKit();
  for (const role of ACCOUNT_ROLES) cookies.set(role, await kit.person(`walker-${role.replaceAll(" ", "-")}`, [role]));
});

test("every route is in the table by hand, and nothing else", () => {
  expect(routeTable.map(({ method, path }) => `${method} ${path}`).sort()).toEqual(Object.keys(BY_HAND).sort());
});

describe.each(routeTable.map((one) => [`${one.method} ${one.path}`, one] as const))("%s", (name, one) => {
  const path = one.path.replaceAll(/\{\w+\}/g, "nobody");
  const codeOf = async (cookie?: string) => {
    kit.later(1); // so that nobody is told to wait
    const response = await kit.ask(one.method, path, cookie ? { cookie, body: {} } : { body: {} });
    const isProblem = response.headers.get("content-type")?.includes("problem") ?? false;
    return isProblem ? ((await response.json()) as { code: string }).code : String(response.status);
  };

  test("signed out", async () => {
    const code = await codeOf();
    if (BY_HAND[name] === "all") expect(code).not.toBe("sign-in-wanted");
    else expect(code).toBe("sign-in-wanted");
  });

  test.each(ACCOUNT_ROLES.filter((role) => one.path !== "/api/sign-out" || role === "viewer"))("%s", async (role) => {
    const holds = ["all", "in"].includes(BY_HAND[name] ?? "") || (BY_HAND[name] ?? "").split(", ").includes(role);
    const code = await codeOf(cookies.get(role));
    if (holds) expect(["not-allowed", "sign-in-wanted"]).not.toContain(code);
    else expect(code).toBe("not-allowed");
    if (one.path === "/api/sign-out") cookies.set(role, await kit.person("walker-again", [role]));
  });

  // a read changes nothing, whoever sends it
  const write = one.writes ? test : () => undefined;
  write("from another page", async () => {
    kit.later(10);
    const cookie = cookies.get("administrator") ?? "";
    const ask = (headers: Readonly<Record<string, string>>) =>
      kit.ask(one.method, path, { cookie, headers }).then(async (response) => [response.status, await response.json()]);
    const refused = [403, expect.objectContaining({ code: "not-from-this-page" })];
    expect(await ask({ "x-veinwright": "" })).toEqual(refused);
    expect(await ask({ "sec-fetch-site": "cross-site" })).toEqual(refused);
    expect(await ask({ "sec-fetch-site": "same-site" })).toEqual(refused);
    expect(await ask({ origin: "https://elsewhere.example" })).toEqual(refused);
    expect(await ask({ origin: "null" })).toEqual(refused);
  });

  test("under another host's name", async () => {
    const response = await kit.ask(one.method, path, { headers: { host: "rebound.example" } });
    expect(response.status).toBe(421);
  });
});
