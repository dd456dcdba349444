import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchBrowser, openPractice, startServer, type Browser, type Page, type Served } from "../browser/browser.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let browser: Browser;
let served: Served;

beforeAll(async () => {
  served = await startServer();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  served.stop();
});

async function findings(page: Page): Promise<readonly string[]> {
  // the page's own policy lets no foreign script in, so axe is handed over as an evaluated text
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const run = (
      globalThis as unknown as {
        axe: { run: (options: unknown) => Promise<{ violations: { id: string; nodes: { target: string[] }[] }[] }> };
      }
    ).axe;
    const { violations } = await run.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"] });
    return violations.map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .map(({ target }) => target.join(" "))
          .slice(0, 3)
          .join("; ")}`,
    );
  });
}

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
      await page.waitForTimeout(500);
      expect(await findings(page)).toEqual([]);
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
    expect(await findings(page)).toEqual([]);
    await context.close();
  });

  test(`the first screen, the policy and the flow in ${colorScheme} have no axe finding`, async () => {
    const context = await browser.newContext({ colorScheme });
    const page = await context.newPage();
    await page.goto(served.address);
    await page.locator(".doors").waitFor();
    expect(await findings(page)).toEqual([]);
    await page.goto(`${served.address}/#/policy`);
    await page.locator(".policy table").waitFor();
    expect(await findings(page)).toEqual([]);
    await page.goto(`${served.address}/#/flow`);
    await page.locator(".flow-section").waitFor();
    expect(await findings(page)).toEqual([]);
    await context.close();
  });

  for (const width of [1280, 360]) {
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
      expect(await findings(page)).toEqual([]);
      await page.evaluate(() => {
        globalThis.location.hash = "#/count/pack?from=2025-12-01&to=2026-01-01";
      });
      await page.locator(".plate-page").first().waitFor();
      expect(await findings(page)).toEqual([]);
      await page.check('[data-pack="own"]');
      await page.locator('[data-memory="PracticeChanged new"]').click();
      await page.locator('[data-memory="bases"]').click();
      await page.locator("[data-proposal]").waitFor();
      expect(await findings(page)).toEqual([]);
      await page.evaluate(() => {
        globalThis.location.hash = "#/case/practice-birk";
      });
      await page.locator('[data-paper="case"]').waitFor();
      expect(await findings(page)).toEqual([]);
      await context.close();
    });
  }
}
