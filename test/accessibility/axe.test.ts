import { expect, test } from "vitest";
import { axeFindings } from "../browser/axe-findings.ts";
import { openPractice } from "../browser/browser.ts";
import { servedBrowser } from "../browser/served-browser.ts";

const { browser, served } = await servedBrowser();

for (const colorScheme of ["light", "dark"] as const) {
  for (const [width, id] of [
    [1280, "plain"],
    [360, "coin-flip"],
    [820, "nothing-fits"],
  ] as const) {
    test(`the plan of "${id}" at ${width} px in ${colorScheme} has no axe finding`, async () => {
      const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
      const page = await context.newPage();
      await openPractice(page, served.address, id);
      await page.getByText("Still looking ...").waitFor({ state: "detached" });
      expect(await axeFindings(page)).toEqual([]);
      await context.close();
    });
  }

  test(`a need with its answer in ${colorScheme} has no axe finding`, async () => {
    const context = await browser.newContext({ colorScheme });
    const page = await context.newPage();
    await openPractice(page, served.address, "plain");
    await page.locator('[data-path="referral.days.likely"]').fill("4");
    await page.locator('[data-path="referral.infusates.0"]').fill("ceftriaxone");
    await page.locator(".more > summary").click();
    await page.locator('[data-path="referral.kidney.filtration"]').fill("20");
    await page.locator(".keep-arms").waitFor();
    await page.locator(".compared > summary").click();
    expect(await axeFindings(page)).toEqual([]);
    await context.close();
  });

  test(`the first screen, the policy and the flow in ${colorScheme} have no axe finding`, async () => {
    const context = await browser.newContext({ colorScheme });
    const page = await context.newPage();
    await page.goto(served.address);
    await page.locator(".doors").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.goto(`${served.address}/#/policy`);
    await page.locator(".policy table").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.goto(`${served.address}/#/flow`);
    await page.locator(".flow-section").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await context.close();
  });

  for (const width of [1280, 820, 360]) {
    test(`the count with a pressed number and its four pages, ${width} px in ${colorScheme}, have no axe finding`, async () => {
      const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
      const page = await context.newPage();
      await page.goto(`${served.address}/#/count`);
      await page.setInputFiles('[data-open="lines"]', "reference/independent/r/count-year.csv");
      await page.waitForSelector('[data-given="900"]');
      await page.evaluate(() => {
        globalThis.location.hash = "#/count?from=2025-01-01&to=2026-01-01&by=lumens&measure=occlusion";
      });
      await page.locator(".count-plates figure").first().waitFor();
      await page.locator(".count-plates summary").first().click();
      await page.locator('[data-own="open"]').click();
      if (width === 360) for (const fold of await page.locator(".fold > summary").all()) await fold.click();
      expect(await axeFindings(page)).toEqual([]);
      await page.evaluate(() => {
        globalThis.location.hash = "#/count?from=2025-01-01&to=2026-01-01";
      });
      const wards = ["row,line_key,patient_key,placed_at,end_kind,end_at,ward,patient_days,manual_line_days"];
      wards.push("line,L1,P1,2025-03-01,removed,2025-03-20,Ash,,", "ward month,W1,,2025-03-01,,,Elm,400,80");
      const buffer = Buffer.from(`${wards.join("\n")}\n`);
      await page.setInputFiles('[data-open="lines"]', { name: "wards.csv", mimeType: "text/csv", buffer });
      await page.locator("[data-ward-use] summary").click();
      expect(await axeFindings(page)).toEqual([]);
      await page.getByRole("button", { name: "Back to the record on this device" }).click();
      await page.locator('[data-memory="WardMonthCounted new"]').click();
      expect(await axeFindings(page)).toEqual([]);
      await page.setInputFiles('[data-open="lines"]', "reference/independent/r/count-year.csv");
      await page.waitForSelector('[data-given="900"]');
      await page.evaluate(() => {
        globalThis.location.hash = "#/count/pack?from=2025-12-01&to=2026-01-01";
      });
      await page.locator(".plate-page").first().waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await page.check('[data-pack="own"]');
      await page.locator('[data-memory="PracticeChanged new"]').click();
      await page.locator('[data-memory="bases"]').click();
      await page.locator("[data-proposal]").waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await page.evaluate(() => {
        globalThis.location.hash = "#/case/practice-birk";
      });
      await page.locator('[data-paper="case"]').waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await context.close();
    });
  }
}
