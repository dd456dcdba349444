import { beforeEach, describe, expect, test } from "vitest";
import { firstAccount, resetFromConsole } from "../../src/server/first-account.ts";
import { fromBase32, stepAt, timeCode } from "../../src/server/people/time-code.ts";
import { cookieOf, serverKit, type Kit } from "./server-kit.ts";

const LONG = "quiet lamp river sail";
let kit: Kit;
beforeEach(async () => {
  kit = await serverKit();
});

const post = async (path: string, body: object, cookie?: string) => {
  const response = await kit.ask("POST", path, cookie ? { body, cookie } : { body });
  const text = await response.text();
  return { status: response.status, response, json: (text === "" ? {} : JSON.parse(text)) as Record<string, unknown> };
};
const signIn = (account: string, password: string, code = "") => post("/api/sign-in", { account, password, code });

/** A person who has chosen their password: their session. */
async function settled(account: string, roles: readonly string[], password = LONG): Promise<string> {
  const administrator = await kit.person(`keeper-of-${account}`, ["administrator"]);
  const { json } = await post("/api/people", { account, roles }, administrator);
  const once = json["oneTimePassword"] as string;
  const cookie = cookieOf((await signIn(account, once)).response);
  expect((await post("/api/password", { password: once, next: password }, cookie)).status).toBe(204);
  return cookie;
}

const codeNow = (secret: string, steps = 0) =>
  timeCode(fromBase32(secret), stepAt(kit.parts.now().getTime() / 1000) + steps);

describe("the first start", () => {
  test("makes one administrator whose password is for one sign-in and one step", async () => {
    const first = await firstAccount(kit.parts);
    expect(await firstAccount(kit.parts)).toBeUndefined();
    const { response, json } = await signIn("Administrator ", first?.oneTimePassword ?? "");
    expect(json).toMatchObject({ account: "administrator", roles: ["administrator"], changeWanted: true });
    const cookie = cookieOf(response);
    expect((await kit.ask("GET", "/api/people", { cookie })).status).toBe(403);
    const change = { password: first?.oneTimePassword, next: LONG };
    expect((await post("/api/password", { ...change, next: "administrator 12345" }, cookie)).json).toMatchObject({
      code: "faults",
      faults: [{ path: "next", code: "holds-the-account" }],
    });
    expect((await post("/api/password", change, cookie)).status).toBe(204);
    expect((await kit.ask("GET", "/api/people", { cookie })).status).toBe(200);
  });

  test("two servers that start at once on one store make one account, and both start", async () => {
    const other = await serverKit({ connection: kit.connection });
    const made = await Promise.all([firstAccount(kit.parts), firstAccount(other.parts)]);
    expect(made.filter((one) => one !== undefined)).toHaveLength(1);
    expect(await kit.parts.people.persons.list()).toHaveLength(1);
  });

  test("a one-time password ends by itself, and the console gives another", async () => {
    const first = await firstAccount(kit.parts);
    kit.later(72 * 3600 + 1);
    expect((await signIn("administrator", first?.oneTimePassword ?? "")).status).toBe(401);
    const again = await resetFromConsole(kit.parts, "administrator");
    expect((await signIn("administrator", again.oneTimePassword)).status).toBe(200);
  });
});

describe("signing in", () => {
  test("answers alike for a wrong password and for nobody, and keeps no name that is nobody's", async () => {
    await settled("m.kolm", ["inserter"]);
    const wrong = await signIn("m.kolm", "not the password");
    const nobody = await signIn("Secret-typed-here", "not the password");
    const { request: _, ...a } = wrong.json;
    const { request: __, ...b } = nobody.json;
    expect([wrong.status, a]).toEqual([nobody.status, b]);
    const rows = await kit.parts.people.trail.after(0, 500);
    expect(JSON.stringify(rows)).not.toContain("secret-typed");
    expect(rows.filter(({ what }) => what === "sign-in refused").map(({ account }) => account)).toEqual(["m.kolm", ""]);
  });

  test("waits longer after each wrong try, whoever's name it is, and never for good", async () => {
    await settled("m.kolm", ["inserter"]);
    for (const account of ["m.kolm", "nobody"]) {
      for (let tried = 0; tried < 5; tried += 1) expect((await signIn(account, "wrong")).status).toBe(401);
      const { status, response } = await signIn(account, LONG);
      expect([status, response.headers.get("retry-after")]).toEqual([429, "2"]);
    }
    kit.later(3);
    expect((await signIn("m.kolm", LONG)).status).toBe(200);
    expect((await signIn("m.kolm", "wrong")).status).toBe(401);
  });

  test("guesses sent together are no more than guesses sent one after the other", async () => {
    await settled("m.kolm", ["inserter"]);
    const guesses = [...Array.from({ length: 14 }, (_, at) => `guess number ${at} of many`), LONG];
    const statuses = (await Promise.all(guesses.map((guess) => signIn("m.kolm", guess)))).map(({ status }) => status);
    expect(statuses.filter((status) => status === 401)).toHaveLength(5);
    expect(statuses.filter((status) => status === 429)).toHaveLength(10);
    expect(statuses).not.toContain(200);
    kit.later(3);
    expect((await signIn("m.kolm", LONG)).status).toBe(200);
  });

  test("two right ones together both come in, and a right one that wants a code costs nothing", async () => {
    await settled("m.kolm", ["inserter"]);
    for (let round = 0; round < 4; round += 1) {
      const both = await Promise.all([signIn("m.kolm", LONG), signIn("m.kolm", LONG)]);
      expect(both.map(({ status }) => status)).toEqual([200, 200]);
    }
    await kit.parts.people.persons.change("m.kolm", { codeOn: true, codeSecret: "MZXW6YTB" });
    for (let tried = 0; tried < 7; tried += 1) {
      expect((await signIn("m.kolm", LONG)).json).toMatchObject({ code: "second-factor-wanted" });
    }
  });

  test("an account is one whatever the form and case of its letters, and mixes no alphabets", async () => {
    const cookie = await kit.person("keeper", ["administrator"]);
    const make = async (account: string) => {
      const { status, json } = await post("/api/people", { account, roles: ["viewer"] }, cookie);
      return status === 201 ? json["account"] : json["code"];
    };
    expect(await make("M.Kolm")).toBe("m.kolm");
    expect(await make("\uFF4D.\uFF4B\uFF4F\uFF4C\uFF4D")).toBe("account-taken");
    expect(await make("weiß")).toBe("weiss");
    expect(await make("WEISS")).toBe("account-taken");
    expect(await make("νίκος")).toBe("νίκοσ");
    expect(await make("ΝΊΚΟΣ")).toBe("account-taken");
    expect(await make("m.k\u043Elm")).toBe("faults"); // a Cyrillic o
  });

  test("so many a minute from one address", async () => {
    for (let tried = 0; tried < 20; tried += 1) expect((await signIn(`name-${tried}`, "wrong")).status).toBe(401);
    const { status, response } = await signIn("another", "wrong");
    expect([status, response.headers.get("retry-after")]).toEqual([429, "3"]);
  });
});

describe("the second factor", () => {
  test("is asked for after the password, is good once, and a recovery code stands for it once", async () => {
    const cookie = await settled("m.kolm", ["inserter"]);
    const { json } = await post("/api/second-factor", { password: LONG }, cookie);
    const secret = json["secret"] as string;
    expect(json["uri"]).toContain(`secret=${secret}`);
    expect((await post("/api/second-factor/on", { code: "000000" }, cookie)).status).toBe(422);
    const on = await post("/api/second-factor/on", { code: codeNow(secret) }, cookie);
    const codes = on.json["recoveryCodes"] as readonly string[];
    expect([on.status, codes.length]).toEqual([200, 10]);
    expect(JSON.stringify(await kit.parts.people.persons.list())).not.toContain(codes[0]);
    expect((await signIn("m.kolm", LONG)).json).toMatchObject({ code: "second-factor-wanted" });
    // the step that turned it on is used up
    expect((await signIn("m.kolm", LONG, codeNow(secret))).status).toBe(401);
    kit.later(30);
    expect((await signIn("m.kolm", LONG, codeNow(secret))).status).toBe(200);
    expect((await signIn("m.kolm", LONG, codeNow(secret))).status).toBe(401);
    // an earlier step does not come back after a later one
    expect((await signIn("m.kolm", LONG, codeNow(secret, -1))).status).toBe(401);
    expect((await signIn("m.kolm", LONG, codes[3]?.toUpperCase())).status).toBe(200);
    expect((await signIn("m.kolm", LONG, codes[3])).status).toBe(401);
  });

  test("lets a short password stand, which then does not stand alone", async () => {
    const cookie = await settled("m.kolm", ["inserter"]);
    expect((await post("/api/password", { password: LONG, next: "plum tub" }, cookie)).json).toMatchObject({
      faults: [{ path: "next", code: "too-short" }],
    });
    const secret = (await post("/api/second-factor", { password: LONG }, cookie)).json["secret"] as string;
    await post("/api/second-factor/on", { code: codeNow(secret) }, cookie);
    expect((await post("/api/password", { password: LONG, next: "plum tub" }, cookie)).status).toBe(204);
    kit.later(60);
    for (let guess = 0; guess < 5; guess += 1) {
      const tried = await post("/api/second-factor/off", { password: "plum tub", code: "000000" }, cookie);
      expect(tried.status).toBe(422);
    }
    const next = await post("/api/second-factor/off", { password: "plum tub", code: "000000" }, cookie);
    expect(next.status).toBe(429);
    kit.later(60);
    const off = { password: "plum tub", code: codeNow(secret) };
    expect((await post("/api/second-factor/off", off, cookie)).json).toMatchObject({ code: "password-too-short" });
  });
});

describe("a session", () => {
  test("of an administrator ends after a quarter of an hour without a request, of others after the whole hours", async () => {
    const administrator = await kit.person("keeper", ["administrator"]);
    const nurse = await kit.person("a.wren", ["ward nurse"]);
    const me = async (cookie: string) => (await kit.ask("GET", "/api/me", { cookie })).status;
    kit.later(14 * 60);
    expect(await me(administrator)).toBe(200);
    kit.later(14 * 60);
    expect(await me(administrator)).toBe(200);
    kit.later(15 * 60);
    expect([await me(administrator), await me(nurse)]).toEqual([401, 200]);
    kit.later(11 * 3600);
    expect(await me(nurse)).toBe(200);
    kit.later(3600);
    expect(await me(nurse)).toBe(401);
  });

  test("is kept as a hash and ends when the person signs out", async () => {
    const cookie = await kit.person("a.wren", ["ward nurse"]);
    const rows = await kit.connection.all("SELECT * FROM person_session");
    expect(JSON.stringify(rows)).not.toContain(cookie.split("=")[1]);
    expect((await post("/api/sign-out", {}, cookie)).response.headers.get("set-cookie")).toContain("Max-Age=0");
    expect((await kit.ask("GET", "/api/me", { cookie })).status).toBe(401);
  });

  test("changes of role and disabling act at the next request; a reset ends every session", async () => {
    const administrator = await kit.person("keeper", ["administrator"]);
    const cookie = await kit.person("a.wren", ["ward nurse"]);
    const head = async () => (await kit.ask("GET", "/api/head", { cookie })).status;
    expect(await head()).toBe(200);
    expect((await post("/api/people/a.wren", { roles: ["stores"] }, administrator)).status).toBe(200);
    expect(await head()).toBe(403);
    await post("/api/people/a.wren", { roles: ["ward nurse"], disabled: true }, administrator);
    expect(await head()).toBe(401);
    await post("/api/people/a.wren", { disabled: false }, administrator);
    expect(await head()).toBe(401);
    const again = await kit.person("b.lund", ["ward nurse"]);
    expect((await post("/api/people/b.lund/reset", {}, administrator)).status).toBe(200);
    expect((await kit.ask("GET", "/api/me", { cookie: again })).status).toBe(401);
  });
});

test("who keeps the accounts cannot lock everybody out, raise themself, or take a name twice", async () => {
  const cookie = await kit.person("keeper", ["administrator"]);
  const codeOf = async (path: string, body: object) => (await post(path, body, cookie)).json["code"];
  expect(await codeOf("/api/people/keeper", { roles: ["lead"] })).toBe("own-account");
  expect(await codeOf("/api/people/keeper", { disabled: true })).toBe("own-account");
  expect(await codeOf("/api/people", { account: "keeper", roles: ["lead"] })).toBe("account-taken");
  expect(await codeOf("/api/people", { account: "x.y", roles: ["administrator", "lead"] })).toBe("roles-do-not-fit");
  expect(await codeOf("/api/people/nobody", { disabled: true })).toBe("not-found");
  expect(await codeOf("/api/people", { account: "x y", roles: ["king"], more: 1 })).toBe("faults");
});
