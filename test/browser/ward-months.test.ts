import { describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { servedBrowser } from "./served-browser.ts";

// A ward's month is written on the Count page, by keys, over a reload and with the network off. WCAG 2.2: 2.1.1, 3.3.1.
const { browser, served } = await servedBrowser();
const FORM = '[data-memory-form="WardMonthCounted"]';
const said = async (page: Page, selector: string): Promise<string> =>
  (await page.locator(selector).first().innerText()).replaceAll("\u202f", " ").replaceAll(/\s+/g, " ");

/** Tab after Tab until the asked thing holds the keys. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let press = 0; press < 160; press += 1) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((asked) => document.activeElement?.matches(asked), selector)) return;
  }
  throw new Error(`160 presses of Tab do not reach ${selector}`);
}
async function sign(page: Page): Promise<void> {
  await page.fill(`${FORM} [data-sign="initials"]`, "RB");
  await page.selectOption(`${FORM} [data-sign="role"]`, "ward nurse");
  await page.click(`${FORM} [data-sign="sign"]`);
}

describe("the wards' own days on the page", () => {
  test("at 360 px a month is typed by keys with the network off, kept over a reload, refused in words, and signed", async () => {
    const context = await browser.newContext({ viewport: { width: 360, height: 800 } });
    const page = await context.newPage();
    await page.goto(`${served.address}/#/count`);
    await page.waitForSelector('[data-wards="none"]');
    await page.waitForFunction(() => navigator.serviceWorker?.controller !== null);
    await context.setOffline(true);
    await page.fill('[data-ward-ask="month"]', "2026-10");
    await page.focus('[data-ward-ask="month"]');
    await page.fill('[data-ward-ask="ward"]', "Ward 7B");
    await page.focus('[data-ward-ask="ward"]');
    await tabTo(page, '[data-memory="WardMonthCounted new"]');
    await page.keyboard.press("Enter");
    await tabTo(page, `${FORM} input[data-field="patientDays"]`);
    await page.keyboard.type("640");
    await tabTo(page, `${FORM} input[data-field="dailyLineDays"]`);
    await page.keyboard.type("700");
    await page.reload();
    await page.waitForSelector(FORM);
    expect(await page.inputValue('[data-ward-ask="ward"]')).toBe("Ward 7B");
    expect(await page.inputValue(`${FORM} input[data-field="dailyLineDays"]`)).toBe("700");
    await sign(page);
    expect(await said(page, FORM)).toContain("Which lines were counted? Press one of the two.");
    await page.check(`${FORM} input[data-field="linesCounted"][data-value="lines of this service"]`);
    await sign(page);
    expect(await said(page, FORM)).toContain("More patients with a line than patients.");
    await page.fill(`${FORM} input[data-field="dailyLineDays"]`, "128");
    await sign(page);
    await page.waitForSelector('[data-ward-use="Ward 7B"]');
    expect(await said(page, '[data-ward-use="Ward 7B"]')).toContain(
      "Ward 7B: device utilisation 0.20, 128 of 640 patient-days in 1 month.",
    );
    expect(await page.locator('svg [data-ward="Ward 7B"]').count()).toBe(1);
    // a second entry of the month is refused: the first is corrected
    await page.fill('[data-ward-ask="ward"]', "ward 7b");
    await page.click('[data-memory="WardMonthCounted new"]');
    await page.check(`${FORM} input[data-field="linesCounted"] >> nth=0`);
    await page.fill(`${FORM} input[data-field="patientDays"]`, "640");
    await page.fill(`${FORM} input[data-field="dailyLineDays"]`, "90");
    await sign(page);
    expect(await said(page, FORM)).toContain("This ward and month are in the record. Correct that entry.");
    const wide = await page.evaluate(
      () =>
        [...document.querySelectorAll(".ward-part, .ward-part *")].filter(
          (part) => part.getBoundingClientRect().right > 361 && part.closest(".numbers, svg") === null,
        ).length,
    );
    expect(wide).toBe(0);
    await context.close();
  });

  test("a written month is corrected with its reason, and the share moves", async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`${served.address}/#/count`);
    await page.fill('[data-ward-ask="ward"]', "Ward 7B");
    await page.fill('[data-ward-ask="month"]', "2026-10");
    await page.click('[data-memory="WardMonthCounted new"]');
    await page.check(`${FORM} input[data-field="linesCounted"] >> nth=0`);
    await page.fill(`${FORM} input[data-field="patientDays"]`, "640");
    await page.fill(`${FORM} input[data-field="dailyLineDays"]`, "218");
    await sign(page);
    await page.click('[data-ward-use="Ward 7B"] summary');
    expect(await said(page, '[data-ward-month="Ward 7B 2026-10"]')).toContain("Signed by RB, ward nurse.");
    await page.click("[data-correct-month]");
    await page.selectOption('[data-correct="field"]', "dailyLineDays");
    await page.fill('input[data-field="dailyLineDays"]', "128");
    await page.fill('[data-correct="why"]', "two digits turned");
    await page.fill('[data-sign="initials"]', "RB");
    await page.selectOption('[data-sign="role"]', "ward nurse");
    await page.click('[data-sign="sign"]');
    await page.waitForSelector('[data-ward-use="Ward 7B"]');
    expect(await said(page, '[data-ward-use="Ward 7B"]')).toContain("device utilisation 0.20, 128 of 640");
    await page.click('[data-ward-use="Ward 7B"] summary');
    expect(await said(page, '[data-ward-month="Ward 7B 2026-10"]')).toContain("1 value corrected.");
    await page.close();
  });
});
