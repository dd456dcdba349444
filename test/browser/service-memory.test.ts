import { describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { monitorYears } from "../../reference/independent/r/monitor-years.ts";
import { servedBrowser } from "./served-browser.ts";
import { writePatient } from "./people-kit.ts";

// What a meeting writes about its own numbers, rehearsed on the page: common practice, no source.
const { browser, served } = await servedBrowser();
const lines = { name: "years.csv", mimeType: "text/csv", buffer: Buffer.from(monitorYears(5, 500)) };

const PACK = "/count/pack?from=2025-12-01&to=2026-01-01";

async function openPack(width = 1280): Promise<Page> {
  const page = await browser.newPage({ viewport: { width, height: 900 } });
  await page.goto(`${served.address}/#${PACK}`);
  await page.waitForSelector(".service-memory");
  return page;
}
async function openOwnYears(page: Page): Promise<void> {
  await page.evaluate(() => {
    globalThis.location.hash = "#/count";
  });
  await page.waitForSelector('[data-open="lines"]', { state: "attached" });
  await page.setInputFiles('[data-open="lines"]', lines);
  await page.waitForSelector('[data-given="2000"]');
  await page.evaluate((path) => {
    globalThis.location.hash = `#${path}`;
  }, PACK);
  await page.waitForSelector('[data-pack="own"]');
  await page.check('[data-pack="own"]');
  await page.waitForSelector(".service-memory [data-base]");
}
async function sign(page: Page, form: string, role = "lead"): Promise<void> {
  const own = page.locator(`[data-memory-form="${form}"]`);
  await own.locator('[data-sign="initials"]').fill("LO");
  await own.locator('[data-sign="role"]').selectOption(role);
  await own.locator('[data-sign="sign"]').click();
}
const said = async (page: Page, selector: string): Promise<string> =>
  (await page.locator(selector).first().innerText()).replaceAll("\u202f", " ").replaceAll(/\s+/g, " ");

describe("the pack's page and the record", () => {
  test("an action kept on the device alone is offered to be signed, opens the pack, and is forgotten then", async () => {
    const page = await openPack();
    const kept = { what: "Smaller lines first", owner: "lead", dueOn: "2025-12-15", measure: "thrombosis", done: true };
    await page.evaluate((text) => {
      globalThis.localStorage.setItem("veinwright.action.2025-12-01", text);
    }, JSON.stringify(kept));
    await page.reload();
    // in a rehearsal it is shown and stays where it is: what is signed there does not last
    await page.waitForSelector('[data-local-action="2025-11"]');
    expect(await page.locator('[data-local-action="2025-11"] button').count()).toBe(0);
    await writePatient(page, served.address, "Ida Rehn");
    await page.waitForSelector("[data-rehearsing]", { state: "detached" });
    await page.goto(`${served.address}/#${PACK}`);
    await page.click('[data-local-action="2025-11"] [data-memory]');
    await sign(page, "ActionAgreed", "ward nurse");
    expect(await said(page, '[data-memory-form="ActionAgreed"] .fault')).toContain("may not write this");
    await sign(page, "ActionAgreed");
    await page.waitForSelector("[data-local-action]", { state: "detached" });
    expect(await said(page, '[data-action-kept="last"]')).toBe(
      "Smaller lines first. lead, due Mon 15 Dec 2025. Clots seen. done.",
    );
    expect(await said(page, ".plate-page >> nth=0")).toMatch(/Last month's action Smaller lines first\. lead/);
    expect(await page.evaluate(() => globalThis.localStorage.getItem("veinwright.action.2025-12-01"))).toBeNull();
    await page.close();
  });

  test("a change of practice is marked by its number on every plate of time, and told in words", async () => {
    const page = await openPack();
    await openOwnYears(page);
    await page.click('[data-memory="PracticeChanged new"]');
    await page.fill('input[data-field="changedOn"]', "2025-07-01");
    await page.check('input[data-field="kindOfChange"][data-value="device or lot"]');
    await page.fill(
      '[data-field="words"] textarea, textarea[data-field="words"], input[data-field="words"]',
      "New lot",
    );
    await sign(page, "PracticeChanged");
    await page.waitForSelector('[data-change="1"]');
    expect(await page.locator('[data-change="1"]').count()).toBe(3);
    expect(await said(page, ".plate-page >> nth=1")).toContain("1. Tue 1 Jul 2025, device or lot: New lot.");
    await page.close();
  });

  test("a base is set with a reason, a signal against it kept once, and what was found stands on the page", async () => {
    const page = await openPack();
    await openOwnYears(page);
    expect(await said(page, '[data-base="thrombosis"]')).toContain("it moves on each month");
    await page.click('[data-memory="bases"]');
    await page.selectOption('[data-base-ask="measure"]', "thrombosis");
    await page.click('[data-memory="WatchBaseSet thrombosis"]');
    await sign(page, "WatchBaseSet");
    expect(await said(page, '[data-memory-form="WatchBaseSet"] .fault')).toContain("with a reason");
    await page.fill('[data-memory-form="WatchBaseSet"] input[data-field="by"]', "L. Orr");
    await page.fill(
      '[data-memory-form="WatchBaseSet"] [data-field="why"] textarea, [data-memory-form="WatchBaseSet"] input[data-field="why"]',
      "three full years",
    );
    await sign(page, "WatchBaseSet");
    await page.waitForSelector('[data-memory-form="WatchBaseSet"]', { state: "detached" });
    expect(await said(page, '[data-base="thrombosis"]')).toContain("set by L. Orr: three full years.");
    const first = page.locator("[data-signal]").filter({ has: page.locator('[data-memory^="SignalSeen thrombosis"]') });
    const day = await first.first().getAttribute("data-signal");
    await page.click(`[data-memory="SignalSeen thrombosis ${day}"]`);
    await sign(page, "SignalSeen");
    const look = `[data-signal="${day}"] [data-memory^="SignalLookedAt thrombosis"]`;
    await page.waitForSelector(look);
    expect(await page.locator(`[data-memory="SignalSeen thrombosis ${day}"]`).count()).toBe(0);
    await page.click(look);
    await page.fill('[data-memory-form="SignalLookedAt"] input[data-field="by"]', "A. Wren");
    await page.check('input[data-field="found"][data-value="practice"]');
    await sign(page, "SignalLookedAt", "infection control");
    await page.waitForSelector('[data-memory-form="SignalLookedAt"]', { state: "detached" });
    expect(await said(page, `[data-signal="${day}"]`)).toContain("Looked at by A. Wren: practice.");
    await page.close();
  });

  test("at 360 px no part of it is wider than the page", async () => {
    const page = await openPack(360);
    await openOwnYears(page);
    await page.click('[data-memory="bases"]');
    await page.click('[data-memory="PracticeChanged new"]');
    // what is typed stands clear of the press that says why it is absent
    const [box, why] = await Promise.all(
      ['input[data-field="changedOn"]', '[data-field="changedOn"] .absent select'].map((one) =>
        page.locator(`[data-memory-form="PracticeChanged"] ${one}`).boundingBox(),
      ),
    );
    expect(why!.y + why!.height).toBeLessThanOrEqual(box!.y + 1);
    const wide = await page.evaluate(
      () =>
        [...document.querySelectorAll(".service-memory, .service-memory *")].filter(
          (part) => part.getBoundingClientRect().right > 361,
        ).length,
    );
    expect(wide).toBe(0);
    await page.close();
  });
});
