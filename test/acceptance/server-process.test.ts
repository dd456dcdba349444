import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";

const dataFolder = mkdtempSync(join(tmpdir(), "veinwright-process-"));
const env = { ...process.env, VEINWRIGHT_DATA: dataFolder, PORT: "" };
afterAll(() => rmSync(dataFolder, { recursive: true }));

/** The built server as a person starts it: what it printed up to its address, and its end. */
async function start() {
  const server = spawn(process.execPath, ["dist/server/main.js"], { env, stdio: ["ignore", "pipe", "pipe"] });
  let printed = "";
  const ended = new Promise<number | null>((resolve) => server.on("exit", resolve));
  const address = await new Promise<string>((resolve, reject) => {
    server.on("exit", () => reject(new Error(`ended before its address: ${printed}; run npm run build first`)));
    for (const stream of [server.stdout, server.stderr]) {
      stream.on("data", (chunk: Buffer) => {
        printed += chunk.toString();
        const found = /at (http:\/\/[\d.]+:\d+)\//.exec(printed)?.[1];
        if (found) resolve(found);
      });
    }
  });
  const end = () => {
    server.kill("SIGTERM");
    return ended;
  };
  return { address, printed: () => printed, end };
}

const signIn = (address: string, password: string) =>
  fetch(`${address}/api/sign-in`, {
    method: "POST",
    headers: { "x-veinwright": "1", "content-type": "application/json" },
    body: JSON.stringify({ account: "administrator", password, code: "" }),
  }).then(({ status }) => status);

test("starts, lets its first administrator in, ends cleanly, and prints no password at the second start", async () => {
  const first = await start();
  const password = /one-time password ([a-z2-7-]+)/.exec(first.printed())?.[1] ?? "";
  expect(await signIn(first.address, password)).toBe(200);
  expect(await fetch(`${first.address}/api/head`).then(({ status }) => status)).toBe(401);
  expect(await fetch(first.address).then((response) => response.text())).toContain("<!doctype html>");
  expect(await first.end()).toBe(0);

  const second = await start();
  expect(second.printed()).not.toContain("password");
  expect(await signIn(second.address, password)).toBe(200);
  expect(await second.end()).toBe(0);
  for (const file of ["veinwright.sqlite", "request.ndjson"]) {
    expect(statSync(join(dataFolder, file)).mode & 0o077).toBe(0);
  }

  const reset = spawnSync(process.execPath, ["dist/server/main.js", "--reset-password"], { env, encoding: "utf8" });
  const again = /administrator: ([a-z2-7-]+)/.exec(reset.stdout)?.[1] ?? "";
  const third = await start();
  expect([await signIn(third.address, password), await signIn(third.address, again)]).toEqual([401, 200]);
  expect(await third.end()).toBe(0);
});

test("beyond this machine in the clear is refused in words", () => {
  const { status, stderr } = spawnSync(process.execPath, ["dist/server/main.js"], {
    env: { ...env, HOST: "0.0.0.0" },
    encoding: "utf8",
  });
  expect([status, stderr]).toEqual([64, expect.stringContaining("Without TLS")]);
});
