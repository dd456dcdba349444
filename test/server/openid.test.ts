import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { Provider } from "oidc-provider";
import { afterAll, beforeAll, expect, test } from "vitest";
import { OutsideSignIn } from "../../src/server/openid/outside-sign-in.ts";
import { openPeople } from "../../src/store/index.ts";
import { cookieOf, serverKit, type Kit } from "./server-kit.ts";

// The outside is a certified implementation of OpenID Connect run on loopback (oidc-provider), not this program.
const REDIRECT = "http://localhost/api/openid/answer";
let house: Server;
let issuer = "";
let kit: Kit;

beforeAll(async () => {
  house = createServer();
  await new Promise<void>((resolve) => house.listen(0, "127.0.0.1", resolve));
  issuer = `http://127.0.0.1:${(house.address() as AddressInfo).port}`;
  const provider = new Provider(issuer, {
    clients: [{ client_id: "picc", client_secret: "of-the-test", redirect_uris: [REDIRECT] }],
    pkce: { required: () => true },
    features: { devInteractions: { enabled: true } },
    cookies: { keys: ["of-the-test"] },
    findAccount: (_context, id) => ({ accountId: id, claims: () => ({ sub: id, roles: ["administrator"] }) }),
  });
  const answer = provider.callback();
  house.on("request", (request, response) => void answer(request, response));
  kit = await serverKit({
    outside: new OutsideSignIn({
      issuer,
      clientId: "picc",
      clientSecret: "of-the-test",
      redirectUri: REDIRECT,
      plainHttp: true,
    }),
  });
  await kit.person("m.kolm", ["inserter"]);
  await kit.parts.people.persons.change("m.kolm", { openIdIssuer: issuer, openIdSubject: "house-17" });
});
afterAll(() => new Promise((resolve) => house.close(resolve)));

/** Signs in at the house as a browser would: follows every redirect, keeps cookies, fills the two forms. */
async function atTheHouse(url: string, login: string): Promise<string> {
  const jar = new Map<string, string>();
  let at = url;
  let form: URLSearchParams | undefined;
  for (let step = 0; step < 20; step += 1) {
    const response = await fetch(at, {
      redirect: "manual",
      headers: { cookie: [...jar].map(([name, value]) => `${name}=${value}`).join("; ") },
      ...(form ? { method: "POST", body: form } : {}),
    });
    for (const cookie of response.headers.getSetCookie()) {
      const [, name = "", value = ""] = /^([^=]+)=([^;]*)/.exec(cookie) ?? [];
      jar.set(name, value);
    }
    form = undefined;
    const location = response.headers.get("location");
    if (location) {
      at = new URL(location, at).href;
      if (at.startsWith(REDIRECT)) return at;
      continue;
    }
    const page = await response.text();
    const prompt = /name="prompt" value="(\w+)"/.exec(page)?.[1] ?? "";
    at = new URL(/action="([^"]+)"/.exec(page)?.[1] ?? "", at).href;
    form = new URLSearchParams(prompt === "login" ? { prompt, login, password: "x" } : { prompt });
  }
  throw new Error("the house did not send the browser back");
}

async function begun(): Promise<{ readonly url: string; readonly cookie: string }> {
  const response = await kit.ask("GET", "/api/openid/start");
  expect(response.status).toBe(302);
  return { url: response.headers.get("location") ?? "", cookie: cookieOf(response) };
}

const back = (url: string, cookie: string) =>
  kit.ask("GET", url.slice("http://localhost".length), { cookie, headers: { "x-veinwright": "" } });

test("signs in the account that the identity of the house stands for, with its own roles and no others", async () => {
  const { url, cookie } = await begun();
  expect(Object.fromEntries(new URL(url).searchParams)).toMatchObject({
    code_challenge_method: "S256",
    response_type: "code",
    scope: "openid",
  });
  const returned = await atTheHouse(url, "house-17");
  const response = await back(returned, cookie);
  expect([response.status, response.headers.get("location")]).toEqual([302, "/"]);
  const me = await kit.ask("GET", "/api/me", { cookie: cookieOf(response) });
  expect(await me.json()).toMatchObject({ account: "m.kolm", roles: ["inserter"] });
  // the way back is good once
  expect((await back(returned, cookie)).status).toBe(403);
});

test("an account made for the sign-in of the house has no password, and confirms a step by having come lately", async () => {
  const keeper = await kit.person("keeper", ["administrator"]);
  const outside = { issuer, subject: "house-18" };
  const body = { account: "a.wren", roles: ["viewer"], outside };
  const made = await kit.ask("POST", "/api/people", { cookie: keeper, body });
  expect(await made.json()).toEqual({ account: "a.wren", oneTimePassword: "", until: "" });
  expect((await kit.ask("POST", "/api/sign-in", { body: { account: "a.wren", password: "a", code: "" } })).status).toBe(
    401,
  );
  const { url, cookie } = await begun();
  const session = cookieOf(await back(await atTheHouse(url, "house-18"), cookie));
  expect((await kit.ask("GET", "/api/head", { cookie: session })).status).toBe(200);
  const confirmed = () => kit.ask("POST", "/api/second-factor", { cookie: session, body: { password: "" } });
  expect((await confirmed()).status).toBe(200);
  kit.later(15 * 60);
  expect((await confirmed()).status).toBe(401);
});

test("an identity nobody here has is refused and makes no account", async () => {
  const before = await kit.parts.people.persons.list();
  const { url, cookie } = await begun();
  const response = await back(await atTheHouse(url, "somebody-else"), cookie);
  expect([response.status, response.headers.get("set-cookie")]).toEqual([403, null]);
  expect(await kit.parts.people.persons.list()).toEqual(before);
});

test("another browser's way back, a changed state and a disabled account are refused", async () => {
  const [mine, other] = [await begun(), await begun()];
  const returned = await atTheHouse(mine.url, "house-17");
  expect((await back(returned, other.cookie)).status).toBe(403);
  expect((await back(returned, "")).status).toBe(403);
  const again = await begun();
  const changed = new URL(await atTheHouse(again.url, "house-17"));
  changed.searchParams.set("state", "x");
  expect((await back(changed.href, again.cookie)).status).toBe(403);
  await kit.parts.people.persons.change("m.kolm", { disabled: true });
  const last = await begun();
  expect((await back(await atTheHouse(last.url, "house-17"), last.cookie)).status).toBe(403);
});

test("an identity of the house stands for one account, also where two are made at once", async () => {
  const keeper = await kit.person("keeper-2", ["administrator"]);
  const post = async (path: string, body: object) => {
    const response = await kit.ask("POST", path, { cookie: keeper, body });
    return { status: response.status, code: ((await response.json()) as { code?: string }).code };
  };
  const outside = { issuer, subject: "house-40" };
  const make = (account: string) => post("/api/people", { account, roles: ["viewer"], outside });
  const made = await Promise.all([make("one.a"), make("one.b"), make("one.c")]);
  expect(made.map(({ status }) => status).sort((a, b) => a - b)).toEqual([201, 409, 409]);
  expect(made.filter(({ code }) => code === "identity-taken")).toHaveLength(2);
  expect(await make("one.d")).toEqual({ status: 409, code: "identity-taken" });
  expect(await post("/api/people/a.wren", { outside })).toEqual({ status: 409, code: "identity-taken" });
  expect((await post("/api/people/m.kolm", { outside: { issuer, subject: "house-17" } })).status).toBe(200);
});

test("a store in which two accounts shared an identity lets neither in by it", async () => {
  const { connection, parts, person } = await serverKit();
  const names = ["two.a", "two.b", "three"];
  for (const account of names) await person(account, ["viewer"]);
  await connection.run("DROP INDEX person_outside");
  await connection.run("DELETE FROM migration WHERE family = 'people' AND place = 1");
  for (const [account, subject] of [
    ["two.a", "same"],
    ["two.b", "same"],
    ["three", "own"],
  ] as const) {
    await parts.people.persons.change(account, { openIdIssuer: issuer, openIdSubject: subject });
  }
  const { persons } = await openPeople(connection);
  expect((await Promise.all(names.map((account) => persons.find(account)))).map((one) => one?.openIdSubject)).toEqual([
    "",
    "",
    "own",
  ]);
});

test("a way back that came too late is refused", async () => {
  await kit.parts.people.persons.change("m.kolm", { disabled: false });
  const { url, cookie } = await begun();
  const returned = await atTheHouse(url, "house-17");
  kit.later(601);
  expect((await back(returned, cookie)).status).toBe(403);
});
