import { X509Certificate } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { request as plainRequest } from "node:http";
import { request, type RequestOptions } from "node:https";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { firstAccount } from "../../src/server/first-account.ts";
import { usualLimits } from "../../src/server/people/people-limits.ts";
import { readSetting, type Setting } from "../../src/server/setting.ts";
import { certificateFrom } from "../../src/server/share/certificate-folder.ts";
import { startServer, type Running } from "../../src/server/start-server.ts";
import { openPeople, openSqlite, sqlEventStore } from "../../src/store/index.ts";

const NAME = "picc.ward.test";
const dataFolder = mkdtempSync(join(tmpdir(), "veinwright-share-"));
let running: Running;
let port = 0;

const setting = (words: readonly string[], env: Readonly<Record<string, string>> = {}): Setting => {
  const read = readSetting(words, { VEINWRIGHT_DATA: dataFolder, HOST: "127.0.0.1", ...env });
  if ("refused" in read) throw new Error(read.refused);
  return read;
};
const start = async (of: Setting) => {
  const connection = await openSqlite(":memory:");
  const parts = { people: await openPeople(connection), limits: usualLimits, now: () => new Date() };
  first = await firstAccount(parts);
  return startServer(of, { connection, store: await sqlEventStore(connection) }, "dist/web", () => undefined);
};
let first: Awaited<ReturnType<typeof firstAccount>>;

beforeAll(async () => {
  running = await start(setting(["--share", NAME]));
  port = Number(new URL(running.address).port);
});
afterAll(async () => {
  await running.close();
  rmSync(dataFolder, { recursive: true });
});

interface Got {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly body: string;
}

/** Asks by a host's name that this machine resolves to itself, as a name server of the house would. */
function get(path: string, options: RequestOptions = {}, body?: object): Promise<Got> {
  return new Promise((resolve, reject) => {
    const asked = request(
      {
        host: NAME,
        port,
        path,
        method: body ? "POST" : "GET",
        headers: { "x-veinwright": "1", "content-type": "application/json" },
        agent: false,
        lookup: (_name, { all }, done) =>
          all ? done(null, [{ address: "127.0.0.1", family: 4 }]) : done(null, "127.0.0.1", 4),
        ...options,
      },
      (response) => {
        let text = "";
        response.on("data", (chunk: Buffer) => (text += chunk.toString()));
        response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }));
      },
    );
    asked.on("error", reject);
    asked.end(body && JSON.stringify(body));
  });
}

describe("over TLS", () => {
  test("by a second name, to whoever trusts the service's authority", async () => {
    const ca = readFileSync(running.authorityFile ?? "");
    const { status, headers } = await get("/api/health", { ca });
    expect(status).toBe(200);
    expect(headers["strict-transport-security"]).toBe("max-age=31536000; includeSubDomains");
    expect(headers["content-security-policy"]).toContain("frame-ancestors 'none'");
  });

  test("not to whoever does not, and not under a name that is not its own", async () => {
    await expect(get("/api/health")).rejects.toThrow(/certificate/);
    const ca = readFileSync(running.authorityFile ?? "");
    await expect(get("/api/health", { ca, host: "elsewhere.ward.test" })).rejects.toThrow(/does not match/);
  });

  test("not in an older TLS, and not in the clear", async () => {
    const ca = readFileSync(running.authorityFile ?? "");
    await expect(get("/api/health", { ca, maxVersion: "TLSv1.1", minVersion: "TLSv1" })).rejects.toThrow();
    await expect(
      new Promise((resolve, reject) => {
        plainRequest({ port, path: "/api/health", host: "127.0.0.1" }, resolve).on("error", reject).end();
      }),
    ).rejects.toThrow();
  });

  test("the session's cookie is held to host, TLS and this site", async () => {
    const ca = readFileSync(running.authorityFile ?? "");
    const { account, oneTimePassword: password } = first ?? { account: "", oneTimePassword: "" };
    const { status, headers, body } = await get("/api/sign-in", { ca }, { account, password, code: "" });
    expect([status, JSON.parse(body)]).toEqual([200, expect.objectContaining({ roles: ["administrator"] })]);
    const [cookie = ""] = headers["set-cookie"] as string[];
    expect(cookie).toMatch(/^__Host-veinwright=[\w-]{43}; /);
    for (const part of ["Secure", "HttpOnly", "SameSite=Strict", "Path=/"]) expect(cookie.split("; ")).toContain(part);
  });
});

describe("the certificate", () => {
  // Node's own reader (OpenSSL) reads what was made; RFC 5280 sections 4.2.1.3, 4.2.1.6, 4.2.1.9, 4.2.1.12.
  test("is what a tablet asks of one", () => {
    const server = new X509Certificate(readFileSync(join(dataFolder, "tls/server.pem")));
    const authority = new X509Certificate(readFileSync(join(dataFolder, "tls/authority.pem")));
    expect(server.verify(authority.publicKey)).toBe(true);
    expect(server.checkIssued(authority)).toBe(true);
    expect([server.ca, authority.ca]).toEqual([false, true]);
    expect([server.checkHost(NAME), server.checkIP("127.0.0.1")]).toEqual([NAME, "127.0.0.1"]);
    expect(server.keyUsage).toEqual(["1.3.6.1.5.5.7.3.1"]);
    const days = (Date.parse(server.validTo) - Date.parse(server.validFrom)) / 86_400_000;
    expect(days).toBeLessThan(398);
  });

  test("keys are their owner's alone", () => {
    for (const file of ["authority-key.pem", "server-key.pem"]) {
      expect(statSync(join(dataFolder, "tls", file)).mode & 0o777).toBe(0o600);
    }
  });

  test("stays while it fits, and is made again by the same authority for a new name or a new year", async () => {
    const read = () => readFileSync(join(dataFolder, "tls/server.pem"), "utf8");
    const before = read();
    const authority = readFileSync(join(dataFolder, "tls/authority.pem"), "utf8");
    await certificateFrom(dataFolder, [NAME], new Date());
    expect(read()).toBe(before);
    await certificateFrom(dataFolder, [NAME, "second.ward.test"], new Date());
    const second = read();
    expect(new X509Certificate(second).checkHost("second.ward.test")).toBe("second.ward.test");
    await certificateFrom(dataFolder, [NAME], new Date(Date.now() + 380 * 86_400_000));
    expect(read()).not.toBe(second);
    expect(readFileSync(join(dataFolder, "tls/authority.pem"), "utf8")).toBe(authority);
  });

  test("of the house is taken as it is given", async () => {
    const { certificate, key } = await certificateFrom(join(dataFolder, "house"), [NAME], new Date());
    const [cert, keyFile] = [join(dataFolder, "house.pem"), join(dataFolder, "house-key.pem")];
    writeFileSync(cert, certificate);
    writeFileSync(keyFile, key);
    const of = setting(["--share", NAME], { VEINWRIGHT_CERT: cert, VEINWRIGHT_KEY: keyFile });
    const second = await start(of);
    const ca = readFileSync(join(dataFolder, "house/tls/authority.pem"));
    const got = await get("/api/health", { ca, port: Number(new URL(second.address).port) });
    await second.close();
    expect([got.status, second.authorityFile]).toEqual([200, undefined]);
  });
});

test("the first account is made on this machine alone", async () => {
  const connection = await openSqlite(":memory:");
  const opened = { connection, store: await sqlEventStore(connection) };
  await expect(startServer(setting(["--share", NAME]), opened, "dist/web", () => undefined)).rejects.toThrow(
    /no account yet/,
  );
  const alone = await startServer(setting([]), opened, "dist/web", () => undefined);
  expect([alone.address, alone.first?.account, alone.whole]).toEqual([
    expect.stringMatching(/^http:\/\/127\.0\.0\.1:/),
    "administrator",
    true,
  ]);
  await alone.close();
});

describe("how to run", () => {
  test.each([
    [[], { HOST: "0.0.0.0" }, /Without TLS/],
    [[], { HOST: "10.1.2.3" }, /npm start -- --share/],
    [[], { PORT: "70000" }, /1 to 65535/],
    [["--plain"], {}, /not known/],
    [["--share", "a b"], {}, /not a name/],
    [["--share"], { VEINWRIGHT_CERT: "a.pem" }, /go together/],
    [[], { VEINWRIGHT_STORE: "mysql://x" }, /postgresql:/],
  ])("%j %j is refused in words", (words, env, why) => {
    expect(readSetting(words, env)).toEqual({ refused: expect.stringMatching(why) });
  });

  test("a database may stand where the folder does, as on the command line", () => {
    const database = "postgresql://app@db.example:5432/picc";
    const wanted = { storeUrl: database, dataFolder: "data" };
    expect(readSetting([], { VEINWRIGHT_DATA: database })).toMatchObject(wanted);
    expect(readSetting([], { VEINWRIGHT_STORE: database })).toMatchObject(wanted);
  });

  test("on this machine alone unless sharing is asked for", () => {
    expect(readSetting([], {})).toMatchObject({ host: "127.0.0.1", share: false, dataFolder: "data" });
    expect(readSetting([], { VEINWRIGHT_SHARE: "1" })).toMatchObject({ host: "0.0.0.0", share: true });
  });
});

test("servers that start together take a port each, and a port that was named is the only one", async () => {
  const own = (env: Readonly<Record<string, string>> = {}) => setting([], env);
  const many = await Promise.all(Array.from({ length: 5 }, () => start(own())));
  try {
    const ports = many.map(({ address }) => Number(new URL(address).port));
    expect(new Set(ports).size).toBe(5);
    await expect(start(own({ PORT: String(ports[0]) }))).rejects.toMatchObject({ code: "EADDRINUSE" });
  } finally {
    await Promise.all(many.map((one) => one.close()));
  }
});
