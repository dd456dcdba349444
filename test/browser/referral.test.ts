import { describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { openPractice } from "./browser.ts";
import { keptHere } from "./kept-here.ts";
import { servedBrowser } from "./served-browser.ts";

const { browser, served } = await servedBrowser();

const said = (page: Page) => page.locator(".referral > .headline").innerText();
const type = (page: Page, path: string, text: string) => page.locator(`[data-path="${path}"]`).first().fill(text);
const press = (page: Page, path: string, value: string) =>
  page.locator(`[data-path="${path}"][data-value="${value}"]`).locator("xpath=..").click();

async function opened(): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  await openPractice(page, served.address, "plain");
  return page;
}

async function fourFields(page: Page, days: string): Promise<void> {
  await type(page, "referral.days.likely", days);
  await type(page, "referral.infusates.0", "Ceftriaxone");
  await type(page, "referral.kidney.creatinines.0.value", "0,8");
  await press(page, "referral.kidney.creatinines.0.unit", "mg/dL");
  await press(page, "referral.sex", "male");
  await press(page, "referral.kidney.replacement", "none");
}

describe("is a line needed", () => {
  test("four fields give a first answer; a PICC is never named while something blocks it", async () => {
    const page = await opened();
    await fourFields(page, "4");
    await expect.poll(() => said(page)).toBe("Not a PICC: a short cannula.");
    await type(page, "referral.days.likely", "20");
    await expect.poll(() => said(page)).toBe("A PICC.");
    await type(page, "referral.kidney.creatinines.0.value", "");
    await expect.poll(() => said(page)).toBe("PICC not excluded. Still to ask before it is chosen.");
    expect(await page.locator(".paper").count()).toBe(0);
    await page.locator('[data-path="referral.kidney.replacement"][data-value="dialysis"]').locator("xpath=..").click();
    await expect.poll(() => said(page)).toBe("Not a PICC: a small tunnelled line in the neck.");
    expect(await page.locator(".keep-arms").innerText()).toContain("KEEP BOTH ARMS");
    // kept arms are named by no voice and no header: eGFR under 45 or dialysis, Chopra V and others 2015 and 2022
    const live = await page.locator(".live").innerText();
    expect(live).toContain("Not a PICC");
    expect(live).not.toContain("Mark the skin");
    expect(await page.locator(".arm-word").innerText()).toBe("NO ARM CHOSEN");
    const [held, answer] = [page.locator("main > .held"), page.locator("main .answer")];
    expect((await held.boundingBox())!.y).toBeLessThan((await answer.boundingBox())!.y);
    // no mark where the needle must not go: common practice, no source
    const drawn = page.locator("main .plates, main .answer .number, main .move, main .answer .others, main .flow-left");
    expect(await drawn.count()).toBe(0);
    const words = await answer.innerText();
    expect(words).toContain("No place for the needle is named or drawn.");
    expect(words).not.toMatch(/Mark the skin|Needle in at|Skin exit|RIGHT ARM/);
    await page.locator('[data-path="referral.kidney.replacement"][data-value="none"]').locator("xpath=..").click();
    await type(page, "referral.kidney.creatinines.0.value", "0,8");
    await expect.poll(() => said(page)).toBe("A PICC.");
    expect(await page.locator("main .plates svg").count()).toBeGreaterThan(0);
    expect(await answer.innerText()).toContain("Mark the skin at");
    await page.context().close();
  });

  test("until a PICC is the answer only the note for the ward prints, on one page", async () => {
    const page = await opened();
    await fourFields(page, "4");
    await expect.poll(() => said(page)).toContain("Not a PICC");
    expect(await page.locator(".paper").count()).toBe(0);
    const note = (await page.pdf({ preferCSSPageSize: true })).toString("latin1").match(/\/Type\s*\/Page[^s]/g) ?? [];
    expect(note).toHaveLength(1);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".answer").isVisible()).toBe(false);
    expect(await page.locator(".ward").innerText()).toContain("Thank you for the referral.");
    await page.emulateMedia({ media: "screen" });
    await type(page, "referral.days.likely", "20");
    await expect.poll(() => page.locator(".paper").count()).toBe(1);
    await page.context().close();
  });

  test("a slip is asked about at its field, and nothing typed is lost by a reload", async () => {
    const page = await opened();
    await fourFields(page, "4");
    await type(page, "referral.kidney.creatinines.0.value", "1.234");
    await expect.poll(() => page.locator(".fault").first().innerText()).toContain("1.234");
    await keptHere(page, '"text":"1.234"');
    await page.reload();
    await page.waitForSelector(".referral");
    expect(await page.locator('[data-path="referral.kidney.creatinines.0.value"]').inputValue()).toBe("1.234");
    await page.context().close();
  });

  test("the hospital's own drug list is taken whole or not at all, and kept", async () => {
    const page = await opened();
    const plan = page.url();
    await page.goto(`${served.address}/#/policy`);
    const take = (csv: string) =>
      page
        .locator('input[accept=".csv,text/csv"]')
        .setInputFiles({ name: "drugs.csv", mimeType: "text/csv", buffer: Buffer.from(csv) });
    await take("name,class\nceftriaxone,mild\n,neither");
    await expect.poll(() => page.locator("output").innerText()).toContain("row 3, name");
    await take("name;osmolarity;class\nceftriaxone;1200;neither");
    await expect.poll(() => page.locator("main").innerText()).toContain("before the starter list: 1.");
    await keptHere(page, "name;osmolarity;class", "policy");
    await page.goto(plan);
    await page.reload();
    await page.waitForSelector(".who");
    await fourFields(page, "10");
    await expect.poll(() => page.locator(".referral").innerText()).toContain("above the 900 set here");
    await page.context().close();
  });
});
