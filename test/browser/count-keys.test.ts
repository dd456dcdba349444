import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Browser, Page } from "playwright-core";
import { monitorYears } from "../../reference/independent/r/monitor-years.ts";
import { launchBrowser, startServer } from "./browser.ts";

// WCAG 2.2: 2.1.1 all by keys, 2.4.3 focus order, 2.4.7 focus seen, 3.3.1 errors told, 4.1.3 status told.
let browser: Browser;
let served: Awaited<ReturnType<typeof startServer>>;
const lines = { name: "years.csv", mimeType: "text/csv", buffer: Buffer.from(monitorYears(5, 500)) };

beforeAll(async () => {
  served = await startServer();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  served.stop();
});

const PACK = "/count/pack?from=2025-12-01&to=2026-01-01";

/** Tab after Tab until the asked thing holds the keys; what holds them is seen to hold them. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let press = 0; press < 160; press += 1) {
    await page.keyboard.press("Tab");
    const held = await page.evaluate((asked) => {
      const { activeElement: one } = document;
      if (!one?.matches(asked)) return undefined;
      const ring = (of: Element): number => Number.parseFloat(getComputedStyle(of).outlineWidth);
      const label = one.closest("label");
      return Math.max(ring(one), label ? ring(label) : 0);
    }, selector);
    if (held === undefined) continue;
    expect(held, `no ring is seen on ${selector}`).toBeGreaterThan(0);
    return;
  }
  throw new Error(`160 presses of Tab do not reach ${selector}`);
}
const holdsSoon = (page: Page, selector: string) =>
  page.waitForFunction((asked) => document.activeElement?.matches(asked), selector);

/** Initials, role and the press, from wherever the keys are in the form. */
async function signByKeys(page: Page, form: string): Promise<void> {
  await tabTo(page, `[data-memory-form="${form}"] [data-sign="initials"]`);
  await page.keyboard.press("ControlOrMeta+A");
  await page.keyboard.type("LO");
  await page.keyboard.press("Tab");
  await page.keyboard.type("lead");
  await tabTo(page, `[data-memory-form="${form}"] [data-sign="sign"]`);
  await page.keyboard.press("Enter");
}

describe("the forms about the service's own numbers", () => {
  test("action, base, signal and look are written by keys alone, and an error is told with nothing lost", async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`${served.address}/#/count`);
    await page.waitForSelector('[data-open="lines"]', { state: "attached" });
    await page.setInputFiles('[data-open="lines"]', lines);
    await page.waitForSelector('[data-given="2000"]');
    await page.evaluate((path) => {
      globalThis.location.hash = `#${path}`;
    }, PACK);
    await page.waitForSelector('[data-pack="own"]');
    await tabTo(page, '[data-pack="own"]');
    await page.keyboard.press("Space");
    await page.waitForSelector(".service-memory [data-base]");

    await tabTo(page, '[data-memory^="ActionAgreed"]');
    await page.keyboard.press("Enter");
    await holdsSoon(page, '[data-memory-form="ActionAgreed"] input[data-field="action"]');
    await page.keyboard.type("Smaller lines first");
    await page.keyboard.press("Escape");
    await holdsSoon(page, '[data-memory^="ActionAgreed"]');
    await page.keyboard.press("Enter");
    await holdsSoon(page, 'input[data-field="action"]');
    expect(await page.locator('input[data-field="action"]').inputValue()).toBe("Smaller lines first");
    await signByKeys(page, "ActionAgreed");
    // an action without owner and day is no action: said aloud, and nothing is gone
    const alert = page.locator('[data-memory-form="ActionAgreed"] [role="alert"]');
    await alert.waitFor();
    expect(await alert.innerText()).toContain("owner");
    await page.keyboard.press("Escape");
    await page.keyboard.press("Enter");
    await tabTo(page, 'input[data-field="ownerRole"]');
    await page.keyboard.type("lead");
    await tabTo(page, 'input[data-field="dueOn"]');
    await page.keyboard.type("12152025");
    await signByKeys(page, "ActionAgreed");
    await page.waitForFunction(() =>
      document.querySelector('[data-action-kept="last"]')?.textContent.includes("Smaller"),
    );
    await holdsSoon(page, '[data-action-kept="last"]');

    await tabTo(page, '[data-memory="bases"]');
    await page.keyboard.press("Enter");
    await holdsSoon(page, '[data-base-ask="measure"]');
    await page.keyboard.type("Clots");
    await tabTo(page, '[data-memory^="WatchBaseSet"]');
    await page.keyboard.press("Enter");
    await holdsSoon(page, 'input[data-field="by"]');
    await page.keyboard.type("L. Orr");
    await tabTo(page, 'input[data-field="why"]');
    await page.keyboard.type("two quiet years");
    await signByKeys(page, "WatchBaseSet");
    await page.waitForFunction(() =>
      document.querySelector('[data-base="thrombosis"]')?.textContent.includes("two quiet years"),
    );

    await tabTo(page, '[data-memory^="SignalSeen"]');
    await page.keyboard.press("Enter");
    await holdsSoon(page, '[data-memory-form="SignalSeen"] [data-sign="initials"]');
    await page.keyboard.press("Shift+Tab");
    await signByKeys(page, "SignalSeen");
    await page.waitForSelector('[data-memory^="SignalLookedAt"]');
    await holdsSoon(page, '[data-memory^="SignalLookedAt"]');
    await page.keyboard.press("Enter");
    await holdsSoon(page, '[data-memory-form="SignalLookedAt"] input[data-field="by"]');
    await page.keyboard.type("A. Wren");
    await tabTo(page, 'input[data-field="found"]');
    await page.keyboard.press("Space");
    await signByKeys(page, "SignalLookedAt");
    await page.waitForFunction(() =>
      document.querySelector(".service-memory")?.textContent.includes("Looked at by A. Wren"),
    );
    await page.close();
  });

  test("a change of practice by keys with the network off: a reload keeps what was typed, and it says where it waits", async () => {
    const context = await browser.newContext({ viewport: { width: 360, height: 800 } });
    const page = await context.newPage();
    await page.goto(`${served.address}/#${PACK}`);
    await page.waitForSelector(".service-memory");
    await page.waitForFunction(() => navigator.serviceWorker?.controller !== null);
    await context.setOffline(true);
    await tabTo(page, '[data-memory="PracticeChanged new"]');
    await page.keyboard.press("Enter");
    await holdsSoon(page, 'input[data-field="changedOn"]');
    await tabTo(page, 'input[data-field="words"]');
    await page.keyboard.type("New dressing on ward A");
    await page.reload();
    await page.waitForSelector('[data-memory-form="PracticeChanged"]');
    expect(await page.inputValue('input[data-field="words"]')).toBe("New dressing on ward A");
    await page.fill('input[data-field="changedOn"]', "2025-07-01");
    await page.check('input[data-field="kindOfChange"] >> nth=0');
    await signByKeys(page, "PracticeChanged");
    await page.waitForSelector('[data-memory="PracticeChanged new"]');
    expect(await page.locator('[aria-label="Changes of practice"] output').innerText()).toContain(
      "Written on this device",
    );
    expect(await page.locator('[aria-label="Changes of practice"] li').innerText()).toContain("New dressing on ward A");
    // what is written is no longer kept as typed
    expect(await page.evaluate(() => Object.keys(globalThis.sessionStorage))).toEqual([]);
    await context.close();
  });
});
