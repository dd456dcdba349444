import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Register } from "../../src/web/register/register.ts";
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
import { deviceBench } from "../device/device-bench.ts";
import { axeFindings } from "./axe-findings.ts";

const bench = await deviceBench();

const settings = (page: Page, minutes: { readonly lock: number; readonly names: number }): Promise<void> =>
  page.evaluate(
    ({ lock, names }) =>
      (globalThis as unknown as { register: Register }).register.lock.set({
        lockAfterMinutes: lock,
        hideNamesAfterMinutes: names,
        forgetAfterHours: 12,
      }),
    minutes,
  );

describe("the lock", () => {
  test("is set on the page, shows a recovery key once, and takes 15 signs at least", async () => {
    const page = await openDevice(bench.context, bench.server, "/secret");
    await page.locator('[data-secret="person"]').fill("Mara");
    await page.locator('[data-secret="secret"]').fill("short");
    await page.locator('[data-secret="again"]').fill("short");
    await page.locator('[data-lock="set"]').click();
    await page.getByText("Too short: 15 signs at least. Spaces count.").waitFor();
    await page.locator('[data-secret="secret"]').fill(SECRET);
    await page.locator('[data-secret="again"]').fill(SECRET);
    await page.locator('[data-lock="set"]').click();
    const shown = await page.locator('[data-lock="recovery-key"]').innerText();
    expect(shown.trim().split(/\s+/)).toHaveLength(7);
    await page.locator('[data-lock="kept"]').click();
    expect(await page.locator('[data-lock="recovery-key"]').count()).toBe(0);
  });

  test("tells a wrong secret, lets wait after five, and opens to the recovery key with a new secret", async () => {
    const page = await openDevice(bench.context, bench.server);
    const key = await setSecret(page);
    await write(page, [used("waits under lock")]);
    await page.reload();
    await opened(page);
    for (let tries = 0; tries < 5; tries += 1) {
      await page.locator('[data-secret="secret"]').fill("not the secret at all");
      await page.locator('[data-lock="open"]').click();
      await page.locator('[data-lock="open"]:not([disabled])').waitFor();
      expect(await page.locator(".fault").innerText()).toBe("That secret does not open this device.");
    }
    await page.locator('[data-secret="secret"]').fill(SECRET);
    await page.locator('[data-lock="open"]').click();
    await page.getByText(/^Too many tries\. Wait \d+ seconds\.$/).waitFor();
    await page.locator('[data-lock="other"]').click();
    const slip = key.replace(/^./, (sign) => (sign === "7" ? "8" : "7"));
    await page.locator('[data-secret="recovery"]').fill(slip);
    await page.locator('[data-secret="new"]').fill("a new secret of mine");
    await page.locator('[data-lock="recover"]').click();
    await page.getByText("One sign is wrong or missing. Read the paper again.").waitFor();
    await page.locator('[data-secret="recovery"]').fill(key.toLowerCase().replaceAll("-", " "));
    await page.locator('[data-lock="recover"]').click();
    await until(page, ({ locked }) => !locked, "open by the recovery key");
    expect((await standing(page)).texts[0]).toContain("waits under lock");
    await page.reload();
    await opened(page);
    await unlock(page, "a new secret of mine");
    expect((await standing(page)).texts).toHaveLength(1);
  });

  test("opens to each of two people on one tablet, and to no other's secret", async () => {
    const page = await openDevice(bench.context, bench.server);
    await setSecret(page);
    await write(page, [used("shared")]);
    const given = await page.evaluate(
      async (own) =>
        (globalThis as unknown as { register: Register }).register.lock.giveSecret(
          { person: "Mara", secret: own },
          "Jo",
          "nine yellow boats at noon",
        ),
      SECRET,
    );
    expect(given).toBe(true);
    await page.reload();
    await opened(page);
    await page.getByText("Jo", { exact: true }).click();
    await page.locator('[data-secret="secret"]').fill(SECRET);
    await page.locator('[data-lock="open"]').click();
    await page.getByText("That secret does not open this device.").waitFor();
    await unlock(page, "nine yellow boats at noon");
    expect((await standing(page)).texts[0]).toContain("shared");
  });

  test("falls after idle time without losing what was half typed, and what waits is still sent", async () => {
    const page = await openDevice(bench.context, bench.server);
    await setSecret(page);
    await until(page, ({ contact }) => contact.kind === "in touch", "in touch");
    await page.locator("[data-typed]").fill("half a sentence about a dressi");
    bench.server.asksSignIn = true;
    await write(page, [used("on its way")]);
    await settings(page, { lock: 0.02, names: 2 });
    await until(page, ({ locked }) => locked, "locked after idle time");
    expect(await page.locator("body").innerText()).not.toContain("Ana Example");
    expect(await page.locator("[data-typed]").isVisible()).toBe(false);
    bench.server.asksSignIn = false;
    await syncNow(page);
    await until(page, ({ unsent }) => unsent === 0, "sent behind the lock");
    await page.locator('[data-secret="secret"]').fill("not the secret at all");
    await page.locator('[data-lock="open"]').click();
    await page.getByText("That secret does not open this device.").waitFor();
    await page.locator('[data-secret="secret"]').fill(SECRET);
    await page.locator('[data-lock="open"]').click();
    await page.locator("[data-typed]").waitFor();
    expect(await page.locator("[data-typed]").inputValue()).toBe("half a sentence about a dressi");
  });

  test("lets what waits survive a sign-out", async () => {
    const page = await openDevice(bench.context, bench.server);
    await setSecret(page);
    bench.server.asksSignIn = true;
    await write(page, [used("waits")]);
    await until(page, ({ contact }) => contact.kind === "sign in again", "asked to sign in");
    await page.locator('[data-device="sign-out"]').click();
    const out = await until(page, ({ locked }) => locked, "signed out");
    expect(out.texts).toEqual([]);
    expect(await page.locator(".device-line").innerText()).toContain("1 entry waits for the server.");
    bench.server.asksSignIn = false;
    await unlock(page);
    await until(page, ({ unsent }) => unsent === 0, "sent after opening again");
  });

  test("hides names after idle time, and one tap shows them again", async () => {
    const page = await openDevice(bench.context, bench.server);
    await setSecret(page);
    await settings(page, { lock: 15, names: 0.02 });
    await page.locator('[data-names="show"]').waitFor();
    expect(await page.getByText("Ana Example").isVisible()).toBe(false);
    await page.locator('[data-names="show"]').click();
    expect(await page.getByText("Ana Example").isVisible()).toBe(true);
  });
});

async function differing(page: Page): Promise<void> {
  await setSecret(page);
  await write(page, [{ subject: "line:a", type: "LineInserted", data: { arm: { value: "left", from: "measured" } } }]);
  await until(page, ({ unsent }) => unsent === 0, "sent");
  const other = await bench.browser.newContext();
  const second = await openDevice(other, bench.server);
  await until(second, ({ texts }) => texts.length === 1, "read by the other");
  await bench.context.setOffline(true);
  const out = (value: number) =>
    ({ subject: "line:a", type: "LineRemoved", data: { lengthOutCm: { value, from: "measured" } } }) as const;
  await write(page, [out(40)]);
  await write(second, [out(44)]);
  await until(second, ({ unsent }) => unsent === 0, "the other sent");
  await other.close();
  await bench.context.setOffline(false);
  await until(page, ({ texts, unsent }) => texts.length === 3 && unsent === 0, "met");
}

/** What a finger has to hit and is smaller than 44 px, or reaches past the edge of the screen. */
const tooSmall = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("button, a, select, input:not([type=radio]):not([type=checkbox])")]
      .filter((element) => element.getClientRects().length > 0)
      .filter((element) => {
        const { height, right } = element.getBoundingClientRect();
        return height < 44 || right > innerWidth + 1;
      })
      .map((element) => `${element.tagName} ${element.textContent}`),
  );

for (const [width, colorScheme] of [
  [1280, "light"],
  [360, "dark"],
] as const) {
  test(`the pages of the device at ${width} px in ${colorScheme} have no axe finding and no target under 44 px`, async () => {
    await bench.takeDevice({ viewport: { width, height: 900 }, colorScheme });
    const page = await openDevice(bench.context, bench.server);
    const folder = process.env["VEINWRIGHT_SHOTS"];
    const look = async (name: string) => {
      if (folder) await page.screenshot({ path: `${folder}/${name}-${width}-${colorScheme}.png`, fullPage: true });
      expect([name, ...(await axeFindings(page)), ...(await tooSmall(page))]).toEqual([name]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    };
    await page.goto(`http://127.0.0.1:${bench.server.port}/#/secret`);
    await page.locator('[data-lock="set"]').waitFor();
    await look("set");
    await page.goto(`http://127.0.0.1:${bench.server.port}/#/sign-in`);
    await page.locator('[data-lock="sign-in"]').waitFor();
    await look("sign-in");
    await page.goto(`http://127.0.0.1:${bench.server.port}/#/`);
    await differing(page);
    await page.goto(`http://127.0.0.1:${bench.server.port}/#/settle`);
    await page.locator('[data-settle="dispute"]').waitFor();
    await look("settle");
    await page.goto(`http://127.0.0.1:${bench.server.port}/#/secret`);
    await page.locator('[data-lock="add"]').waitFor();
    await look("add");
    await page.reload();
    await page.locator('[data-lock="open"]').waitFor();
    await look("locked");
    await page.locator('[data-lock="other"]').click();
    await look("recover");
  });
}
