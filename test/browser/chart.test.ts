import { describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { openPractice } from "./browser.ts";
import { keptHere } from "./kept-here.ts";
import { servedBrowser } from "./served-browser.ts";

const { browser, served } = await servedBrowser();

async function withPracticeChart(): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  await openPractice(page, served.address, "plain");
  await page.locator("button", { hasText: "start from a practice chart" }).click();
  await page.locator(".chart-said figure").waitFor();
  return page;
}

describe("the drug chart on the plan page", () => {
  test("a chart that looks like three lumens is shown to need two, and the plan follows the choice", async () => {
    const page = await withPracticeChart();
    const strip = page.locator(".chart-said .lumen-strip");
    expect(await strip.getAttribute("data-lumens")).toBe("3");
    await expect.poll(() => page.locator(".answer .headline").innerText()).toContain("three lumens");
    await page.locator('[data-path="chart.use"][data-value="re-timed"]').locator("xpath=..").click();
    await expect.poll(() => strip.getAttribute("data-lumens")).toBe("2");
    await expect.poll(() => page.locator(".answer .headline").innerText()).toContain("two lumens");
    const pages = (await page.pdf({ preferCSSPageSize: true })).toString("latin1").match(/\/Type\s*\/Page[^s]/g);
    expect(pages).toHaveLength(2);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".chart-print .lumen-strip").isVisible()).toBe(true);
    await page.context().close();
  });

  test("a slip is asked about where it was typed; a chart survives a reload", async () => {
    const page = await withPracticeChart();
    await page
      .locator('[data-path="chart.rows.1.times"]')
      .evaluate((input) => input.closest("details")?.setAttribute("open", ""));
    await page.locator('[data-path="chart.rows.1.times"]').fill("noon");
    await expect.poll(() => page.locator(".infusion .fault").first().innerText()).toContain("clock times");
    await page.locator('[data-path="chart.rows.1.times"]').fill("every 12 h from 09:00");
    await page.locator(".chart-said figure").waitFor();
    await keptHere(page, "every 12 h from 09:00");
    await page.reload();
    await page.locator(".chart-said figure").waitFor();
    expect(await page.locator('[data-path="chart.rows.1.times"]').inputValue()).toBe("every 12 h from 09:00");
    await page.context().close();
  });
});
