import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Instant } from "../../src/core/calendar/index.ts";
import { seal, type SealedEvent, type Subject } from "../../src/register/index.ts";
import { ownBrowser } from "./browser.ts";
import { deviceBench } from "../device/device-bench.ts";
import {
  SECRET,
  openDevice,
  opened,
  setSecret,
  standing,
  syncNow,
  unlock,
  until,
  used,
  write,
} from "../device/device-browser.ts";

const bench = await deviceBench();

/** What every entry of another device has in common here. */
const SEALED_ELSEWHERE = {
  shape: 1,
  happenedAt: "2026-11-25T09:00Z" as Instant,
  writtenAt: "2026-11-25T09:00Z" as Instant,
  author: { initials: "JT", role: "ward nurse", account: "" },
  device: "ward 1a2b",
  policyVersion: "1",
} as const;

/** What another device wrote meanwhile, already in the server's store. */
function elsewhere(id: string, type: string, seen: number, data: object): void {
  const event: SealedEvent = seal({
    ...SEALED_ELSEWHERE,
    id,
    subject: "line:a",
    type,
    seen,
    data: data as SealedEvent["data"],
  });
  const { store } = bench.server;
  const own = store.events.filter(({ subject }) => subject === "line:a").length;
  expect(store.append({ subject: "line:a", expectedVersion: own, events: [event] }).kind).toBe("accepted");
}

/** Everything the browser keeps for this origin, as text in Latin-1, so that a word in the clear would be found. */
const everythingKept = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const text = (value: unknown): string => {
      if (value instanceof ArrayBuffer) return text(new Uint8Array(value));
      if (value instanceof Uint8Array) return Array.from(value, (byte) => String.fromCodePoint(byte)).join("");
      if (Array.isArray(value)) return value.map(text).join(" ");
      if (typeof value === "object" && value !== null) return text(Object.entries(value).flat());
      return String(value);
    };
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open("veinwright-record");
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error ?? new Error("no store"));
    });
    const names = [...db.objectStoreNames];
    const all = await Promise.all(
      names.map(
        (name) =>
          new Promise((resolve, reject) => {
            const request = db.transaction(name).objectStore(name).getAll();
            request.onsuccess = () => resolve(request.result);
            request.onerror = () => reject(request.error ?? new Error("no rows"));
          }),
      ),
    );
    db.close();
    return text(all) + text(Object.entries(localStorage)) + text(Object.entries(sessionStorage));
  });

describe("what is written is kept", () => {
  test("through a reload without a network, under lock, and nothing of it lies there in the clear", async () => {
    const page = await openDevice(bench.context, bench.server);
    await setSecret(page);
    await until(page, ({ contact }) => contact.kind === "in touch", "in touch");
    await bench.server.stop();
    for (const drug of ["heliotrope", "marigold", "foxglove"]) expect(await write(page, [used(drug)])).toBe(true);
    const before = await until(page, ({ contact }) => contact.kind === "out of touch", "out of touch");
    const kept = await everythingKept(page);
    for (const word of ["heliotrope", "marigold", "foxglove", "LineUsed", "line:a", SECRET]) {
      expect(kept).not.toContain(word);
    }
    expect(kept).toContain("Mara");
    await bench.restartServer();
    await page.reload();
    await opened(page);
    const shut = await until(page, ({ locked }) => locked, "locked after a reload");
    expect(shut.texts).toEqual([]);
    expect(shut.unsent).toBe(3);
    expect(shut.lastContact).toBe(before.lastContact);
    await unlock(page);
    const sent = await until(page, ({ unsent }) => unsent === 0, "sent after unlocking");
    expect(sent.ids).toEqual(before.ids);
    expect(bench.server.store.events.map(({ id }) => id)).toEqual(before.ids);
  });

  test("whole or not at all when the tab is killed in mid-write, twenty times", async () => {
    const first = await openDevice(bench.context, bench.server);
    await setSecret(first);
    bench.server.asksSignIn = true; // nothing leaves the device, so what is found was kept here
    await first.close();
    const acknowledged: string[] = [];
    await bench.context.exposeFunction("acknowledged", (mark: string) => void acknowledged.push(mark));
    for (let cycle = 0; cycle < 20; cycle += 1) {
      const page = await openDevice(bench.context, bench.server);
      await unlock(page);
      const before = acknowledged.length;
      await page.evaluate((name) => {
        const { register, acknowledged } = globalThis as unknown as {
          register: import("../../src/web/register/register.ts").Register;
          acknowledged: (mark: string) => Promise<void>;
        };
        const author = { initials: "MK", role: "inserter", account: "" } as const;
        const one = (drug: string) =>
          ({ subject: "line:a", type: "LineUsed", data: { drug: { value: drug, from: "told" } } }) as const;
        void (async () => {
          for (let count = 0; ; count += 1) {
            const mark = `${name}-${count}`;
            const happenedAt = register.now();
            await register.write([
              { ...one(`${mark}-first`), happenedAt, author },
              { ...one(`${mark}-second`), happenedAt, author },
            ]);
            await acknowledged(mark);
          }
        })();
      }, `cycle${cycle}`);
      // writing never rests, so each kill falls into a write: the first of this tab, or one after some were kept
      await expect
        .poll(() => acknowledged.length - before, { interval: 2, timeout: 20_000 })
        .toBeGreaterThanOrEqual(cycle % 5);
      const session = await bench.context.newCDPSession(page);
      const crashed = page.waitForEvent("crash");
      session.send("Page.crash").catch(() => undefined);
      await crashed;
      await page.close();
    }
    const page = await openDevice(bench.context, bench.server);
    await unlock(page);
    const { texts } = await standing(page);
    const marks = texts.map((text) => /cycle\d+-\d+-\w+/.exec(text)?.[0] as string);
    expect(acknowledged.length).toBeGreaterThanOrEqual(40);
    for (const mark of acknowledged) {
      expect(marks).toContain(`${mark}-first`);
      expect(marks).toContain(`${mark}-second`);
    }
    expect(marks.filter((mark) => mark.endsWith("first")).map((mark) => mark.replace("first", "second"))).toEqual(
      marks.filter((mark) => mark.endsWith("second")),
    );
    console.log(`killed 20 times, ${acknowledged.length} signings acknowledged, all there`);
  });

  test("when the whole browser is killed, three times", async () => {
    const folder = mkdtempSync(join(tmpdir(), "veinwright-device-"));
    bench.server.asksSignIn = true;
    const expected: string[] = [];
    for (let cycle = 0; cycle < 3; cycle += 1) {
      const { context, kill } = await ownBrowser(folder);
      const page = await openDevice(context, bench.server);
      if (cycle === 0) await setSecret(page);
      else await unlock(page);
      for (let count = 0; count < 5; count += 1) {
        expect(await write(page, [used(`kept-${cycle}-${count}`)])).toBe(true);
        expected.push(JSON.stringify(used(`kept-${cycle}-${count}`).data));
      }
      await kill();
    }
    const { context, kill } = await ownBrowser(folder);
    const page = await openDevice(context, bench.server);
    await unlock(page);
    expect((await standing(page)).texts.map(sorted)).toEqual(expected.map(sorted));
    await kill();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  });

  const sorted = (json: string): string =>
    JSON.stringify(Object.entries(JSON.parse(json) as object).sort(([a], [b]) => (a < b ? -1 : 1)));

  test("with a full device: told, on the screen, as a text to copy, taken by the server, and kept when there is room", async () => {
    const page = await bench.context.newPage();
    const session = await bench.context.newCDPSession(page);
    const origin = `http://127.0.0.1:${bench.server.port}`;
    // the browser measures what is left only now and then, so it is given little room before it first looks
    await session.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1_000_000 });
    await page.goto(`${origin}/#/`);
    await opened(page);
    await setSecret(page);
    bench.server.asksSignIn = true;
    await write(page, [used("before")]);
    let kept = 1;
    while (await write(page, [used(`too much ${"and more ".repeat(5000)}`)])) {
      kept += 1;
      expect(kept).toBeLessThan(60);
    }
    const full = await standing(page);
    expect(full.trouble).toBe("1 entry could not be kept: this device is full. Copy the text now.");
    expect(full.texts.at(-1)).toContain("too much");
    expect(full.unsent).toBe(kept + 1);
    expect(full.unkept).toBe(1);
    await page.locator('[data-device="settle"]').click();
    const text = await page.locator("[data-settle=unkept] .entry-text").inputValue();
    expect(text).toMatch(/^VEINWRIGHT ENTRIES 1\n\{.*"too much and more .*"\}.*\}\nEND 1$/s);
    await session.send("Storage.overrideQuotaForOrigin", { origin });
    await page.locator('[data-settle="keep"]').click();
    await until(page, ({ unkept, trouble }) => unkept === 0 && trouble === undefined, "kept after all");
    await page.reload();
    await unlock(page);
    expect((await standing(page)).texts).toHaveLength(kept + 1);
  });
});

describe("the server", () => {
  test("moved on while the network was off half of the time: both stay, the difference is listed and settled", async () => {
    const page = await openDevice(bench.context, bench.server);
    await setSecret(page);
    await write(page, [
      { subject: "line:a", type: "LineInserted", data: { arm: { value: "left", from: "measured" } } },
    ]);
    await until(page, ({ unsent }) => unsent === 0, "the placing sent");
    await bench.context.setOffline(true);
    const out = (lengthOutCm: number) => ({
      subject: "line:a" as const,
      type: "LineRemoved",
      data: { lengthOutCm: { value: lengthOutCm, from: "measured" as const } },
    });
    await write(page, [out(40)]);
    elsewhere("ward-care", "CareGiven", 1, { outsideCm: { value: 1, from: "measured" } });
    elsewhere("ward-out", "LineRemoved", 2, { lengthOutCm: { value: 44, from: "measured" } });
    await until(page, ({ contact }) => contact.kind === "out of touch", "out of touch");
    expect(await page.locator('[data-device="unsent"]').innerText()).toBe("1 entry waits for the server.");
    await bench.context.setOffline(false);
    const met = await until(page, ({ unsent, ids }) => unsent === 0 && ids.length === 4, "met again");
    expect(met.ids).toEqual(bench.server.store.events.map(({ id }) => id));
    await page.locator('[data-device="settle"]').click();
    const dispute = page.locator('[data-settle="dispute"]');
    expect(await dispute.locator("tbody").innerText()).toMatch(/44.cm\s+40.cm/);
    await dispute.locator('[data-settle="holds-0"]').check({ force: true });
    await dispute.locator('[data-settle="why"]').fill("Measured again on the tray");
    await dispute.locator('[data-sign="initials"]').fill("RB");
    await dispute.locator('[data-sign="role"]').selectOption("lead");
    await dispute.locator('[data-sign="sign"]').click();
    await dispute.waitFor({ state: "detached" });
    await until(page, ({ unsent }) => unsent === 0, "the correction sent");
    expect(bench.server.store.events.at(-1)).toMatchObject({
      type: "ValueCorrected",
      data: { event: met.ids[3], field: "lengthOutCm", value: { value: 44, from: "measured" } },
    });
  });

  test("came back with an older backup: said, everything it lacked is sent again, and listed until seen", async () => {
    const page = await openDevice(bench.context, bench.server);
    await setSecret(page);
    for (const drug of ["one", "two", "three", "four"]) await write(page, [used(drug)]);
    const before = await until(page, ({ unsent }) => unsent === 0, "all sent");
    bench.server.store.goBackTo(1);
    elsewhere("since-the-backup", "CareGiven", 1, { outsideCm: { value: 1, from: "measured" } });
    await syncNow(page);
    const after = await until(page, (now) => now.returned === 3 && now.unsent === 0, "three came back");
    expect(after.contact.kind).toBe("server is older");
    expect(await page.locator(".device-line").innerText()).toContain(
      "The server came back with an older backup. It lacked 3 entries; this device sends them again.",
    );
    expect(new Set(bench.server.store.events.map(({ id }) => id))).toEqual(
      new Set([...before.ids, "since-the-backup"]),
    );
    await page.reload();
    await unlock(page);
    await page.locator('[data-device="settle"]').click();
    expect(await page.locator('[data-settle="returned"] li').count()).toBe(3);
    await page.locator('[data-settle="returned"] button').click();
    await until(page, ({ contact }) => contact.kind === "in touch", "in touch once seen");
  });

  test("asks to sign in again: it waits, then goes", async () => {
    const page = await openDevice(bench.context, bench.server);
    bench.server.asksSignIn = true;
    await write(page, [used("waits")]);
    await until(page, ({ contact }) => contact.kind === "sign in again", "asked to sign in");
    await page.locator(".device-line a", { hasText: "Sign in" }).click();
    await page.locator('[data-secret="account"]').fill("mara");
    await page.locator('[data-secret="password"]').fill("wrong one");
    await page.locator('[data-lock="sign-in"]').click();
    await page.locator(".fault", { hasText: "do not fit together" }).waitFor();
    await page.locator('[data-secret="password"]').fill("a long password of ours");
    await page.locator('[data-lock="sign-in"]').click();
    await until(page, ({ unsent, contact }) => unsent === 0 && contact.kind === "in touch", "sent after signing in");
  });

  test("turns one entry back: it stays here with its reason, and the others go", async () => {
    const page = await openDevice(bench.context, bench.server);
    bench.server.unknownType = "EndUnknown";
    await bench.context.setOffline(true);
    await write(page, [used("before"), { subject: "line:a", type: "EndUnknown", data: {} }, used("after")]);
    await bench.context.setOffline(false);
    const now = await until(page, ({ unsent }) => unsent === 0, "the others sent");
    expect(now.aside).toEqual(["not-understood"]);
    expect(now.texts).toHaveLength(3);
    expect(bench.server.store.events.map(({ type }) => type)).toEqual(["LineUsed", "LineUsed"]);
    bench.server.unknownType = undefined;
    await page.locator('[data-device="settle"]').click();
    await page.getByRole("button", { name: "Offer it again" }).click();
    await until(page, ({ aside, unsent }) => aside.length === 0 && unsent === 0, "taken the second time");
  });

  test("is no server at all: alone, and everything works", async () => {
    // from its first asking on: a device that ever heard an answer is out of touch, not alone
    await bench.context.route("**/api/**", (route) => route.fulfill({ status: 404 }));
    const plain = await openDevice(bench.context, bench.server);
    expect(await write(plain, [used("alone")])).toBe(true);
    // written at once; that nobody answers for a server is known when the first answer has come
    await until(plain, ({ texts, contact }) => texts.length === 1 && contact.kind === "alone", "written, alone");
    expect(await plain.locator(".device-line").innerText()).toContain("1 entry, kept on this device only.");
    await plain.reload();
    await until(plain, ({ texts }) => texts.length === 1, "there after a reload");
  });

  test("is shared by two tabs: both show the same, and nothing is sent twice", async () => {
    const one = await openDevice(bench.context, bench.server);
    await setSecret(one);
    const two = await openDevice(bench.context, bench.server);
    await unlock(two);
    await bench.context.setOffline(true);
    await Promise.all(
      ["a", "b", "c", "d", "e"].flatMap((name) => [
        write(one, [used(`one ${name}`)]),
        write(two, [used(`two ${name}`, "b")]),
      ]),
    );
    await until(one, ({ texts }) => texts.length === 10, "ten in one");
    await until(two, ({ texts }) => texts.length === 10, "ten in two");
    bench.server.answerAfterMs = 200;
    await bench.context.setOffline(false);
    await Promise.all([syncNow(one), syncNow(two)]);
    const first = await until(one, ({ unsent }) => unsent === 0, "sent from one");
    const second = await until(two, ({ unsent }) => unsent === 0, "sent from two");
    expect(first.ids).toEqual(second.ids);
    const received = bench.server.received.flat();
    expect(received).toHaveLength(10);
    expect(new Set(received).size).toBe(10);
    await one.locator('[data-device="sign-out"]').click();
    await until(two, ({ locked }) => locked, "signed out in both");
  });

  test("holds ten thousand events: read, opened again and folded without a pause that is felt", async () => {
    for (let line = 0; line < 500; line += 1) {
      const subject: Subject = `line:n${line}`;
      const events = Array.from({ length: 20 }, (_, at) =>
        seal({
          ...SEALED_ELSEWHERE,
          id: `e${line}-${at}`,
          subject,
          type: "LineUsed",
          seen: at,
          data: { drug: { value: `invented drug ${at}`, from: "told" } },
        }),
      );
      expect(bench.server.store.append({ subject, expectedVersion: 0, events }).kind).toBe("accepted");
    }
    const page = await openDevice(bench.context, bench.server, "/sign-in");
    await setSecret(page);
    await page.evaluate(() => {
      const pauses: number[] = [];
      (globalThis as unknown as { pauses: number[] }).pauses = pauses;
      new PerformanceObserver((list) => pauses.push(...list.getEntries().map(({ duration }) => duration))).observe({
        entryTypes: ["longtask"],
      });
    });
    const begun = Date.now();
    await until(page, ({ ids }) => ids.length === 10_000, "all read");
    const readMs = Date.now() - begun;
    const pauses = await page.evaluate(() => (globalThis as unknown as { pauses: number[] }).pauses);
    await page.reload();
    await page.locator('[data-secret="secret"]').fill(SECRET);
    const openMs = await page.evaluate(async (secret) => {
      const { register } = globalThis as unknown as { register: import("../../src/web/register/register.ts").Register };
      const start = performance.now();
      await register.lock.open("Mara", secret);
      return performance.now() - start;
    }, SECRET);
    expect((await standing(page)).ids).toHaveLength(10_000);
    const foldMs = await page.evaluate(async () => {
      const { register } = globalThis as unknown as { register: import("../../src/web/register/register.ts").Register };
      const start = performance.now();
      await register.write([
        {
          subject: "line:n1",
          type: "LineUsed",
          data: {},
          happenedAt: register.now(),
          author: { initials: "MK", role: "inserter", account: "" },
        },
      ]);
      return performance.now() - start;
    });
    console.log(
      `10,000 events: read and kept in ${readMs} ms, longest pause ${Math.round(Math.max(0, ...pauses))} ms; ` +
        `opened with the secret in ${Math.round(openMs)} ms; one more entry kept in ${Math.round(foldMs)} ms`,
    );
    // held against each other in one run, never against a clock: opening costs less than the first reading over the wire,
    // and one more entry does not open and fold the ten thousand again
    expect(openMs).toBeLessThan(readMs);
    expect(foldMs).toBeLessThan(openMs);
  });
});
