import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Browser, Page } from "playwright-core";
import { launchBrowser, startServer } from "./browser.ts";

// The invented year is the one R counted too (reference/independent/r): its numbers are R's, not this page's.
const YEAR = "reference/independent/r/count-year.csv";
const OF_2025 = "from=2025-01-01&to=2026-01-01";

let browser: Browser;
let served: Awaited<ReturnType<typeof startServer>>;

beforeAll(async () => {
  served = await startServer();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  served.stop();
});

async function open(path = "/count"): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(`${served.address}/#${path}`);
  await page.waitForSelector(".count");
  return page;
}
async function openYear(path: string): Promise<Page> {
  const page = await open(path);
  await page.setInputFiles('[data-open="lines"]', YEAR);
  await page.waitForSelector('[data-given="900"]');
  return page;
}
const said = async (page: Page, selector: string): Promise<string> =>
  (await page.locator(selector).innerText()).replaceAll("\u202f", " ").replaceAll(/\s+/g, " ");

describe("the Count door", () => {
  test("opens from the first screen on the record of this device", async () => {
    const page = await browser.newPage();
    await page.goto(served.address);
    await page.click('a.door[href="#/count"]');
    await page.waitForSelector(".figures");
    expect(await page.locator("[data-used]").getAttribute("data-given")).toBe("12");
    await page.close();
  });

  test("the sentence stands first: what stands apart, and what nobody wrote", async () => {
    const page = await openYear(`/count?${OF_2025}`);
    // R 4.2, poisson.test on the two years of the invented table: 32 and 6 infections, the limits leave one out
    expect(await said(page, ".glance .headline")).toContain("higher: 2.58 per 1,000");
    expect(await said(page, ".glance")).toContain("A zero there may mean that nobody asks.");
    const first = await page.locator(".glance").boundingBox();
    const entry = await page.locator(".period").boundingBox();
    expect(first!.y).toBeLessThan(entry!.y);
    // nobody read a tip in this table: a nought there would be a claim
    expect(await said(page, '[data-press="tip-well-placed"]')).toContain("known for none of 598");
    expect(await said(page, '[data-press="migration"]')).toContain("never written down");
    expect(await said(page, '[data-measure="migration"] .figure-words')).not.toMatch(/at most|between/);
    await page.close();
  });

  test("a pressed number shows its sum and its lines, and the address says what was pressed", async () => {
    const page = await open(`/count?from=2020-01-01&to=2100-01-01`);
    await page.click('[data-press="placed"]');
    await page.waitForSelector('[data-sum="placed"] .counted');
    expect(page.url()).toContain("measure=placed");
    const links = page.locator('[data-sum="placed"] .counted a');
    const number = Number(await page.locator('[data-press="placed"] b').innerText());
    // found lines came with the patient: they are in the table and were not placed here
    expect(await links.count()).toBe(number);
    await links.first().click();
    await page.waitForSelector(".line-page");
    await page.close();
  });

  test("a line table from a file gives the numbers that R gives", async () => {
    const page = await openYear(`/count?${OF_2025}&measure=occlusion&by=lumens`);
    const golden = JSON.parse(readFileSync("reference/independent/r/count-year-golden.json", "utf8")) as Readonly<
      Record<string, number>
    >;
    const of = (measure: string, what: string): number => golden[`all ${measure}.${what}`] as number;
    for (const measure of ["occlusion", "thrombosis", "infection-clinical", "infection-surveillance"]) {
      const days = of(measure, "days").toLocaleString("en-GB", { maximumFractionDigits: 1 });
      const [rate, lower, upper] = ["rate", "lower", "upper"].map((what) => of(measure, what).toFixed(2));
      const sentence = await said(page, `[data-measure="${measure}"] .figure-words`);
      expect(sentence).toContain(`${of(measure, "events")} in ${days} `);
      expect(sentence).toContain(`${rate} per 1,000 (${lower} to ${upper}, exact Poisson, 95 %)`);
    }
    for (const measure of ["first-attempt", "short-stay", "ratio-within"]) {
      const sentence = await said(page, `[data-measure="${measure}"] .figure-words`);
      const [lower, upper] = ["lower", "upper"].map((what) => (100 * of(measure, what)).toFixed(1));
      expect(sentence).toContain(`${of(measure, "numerator")} in ${of(measure, "denominator")} `);
      expect(sentence).toContain(`${lower} % to ${upper} %`);
    }
    expect(await page.locator(".count-plates figure").count()).toBe(4);
    expect(await page.locator(".count-plates details table").count()).toBe(4);
    expect(await said(page, ".parts")).toContain("lumens 1");
    await page.close();
  });

  test("every fault of a file is listed and nothing of it is taken", async () => {
    const page = await open();
    const bad = "line_key,patient_key,placed_at,side\nL1,P1,2025-02-30,left arm\nL2,P2,2025-03-01,upper arm\n";
    await page.setInputFiles('[data-open="lines"]', {
      name: "bad.csv",
      mimeType: "text/csv",
      buffer: Buffer.from(bad),
    });
    await page.waitForSelector(".refused");
    expect(await page.locator(".refused li").count()).toBe(2);
    expect(await page.locator("[data-used]").getAttribute("data-given")).toBe("12");
    await page.close();
  });

  test("no figure of persons is drawn before somebody says who asks, and then of one alone", async () => {
    const page = await openYear(`/count?${OF_2025}&by=inserter&measure=placed`);
    expect(await page.locator('[data-split="inserter"]').count()).toBe(0);
    expect(await page.locator(".figure-sum .parts").count()).toBe(0);
    expect(await said(page, ".own")).toContain("For that person and their trainer.");
    await page.click('[data-own="open"]');
    await page.fill('[data-own="who"]', "S5");
    await page.waitForSelector(".own .parts");
    expect(await said(page, ".own .parts")).not.toMatch(/\bS[1-46-9]\b/);
    await page.close();
  });

  test("published figures stand small beside a pressed number only where they are counted alike", async () => {
    const page = await openYear(`/count?${OF_2025}&measure=thrombosis`);
    await page.waitForSelector(".elsewhere");
    // Evans RS and others 2010, Chest 138:803
    expect(await said(page, '[data-yardstick="thrombosis-trauma-centre"]')).toContain("3.97 per 1,000 exact line-days");
    expect(await said(page, '[data-apart="thrombosis-weekly-scan"]')).not.toContain("9.03");
    expect(await said(page, ".elsewhere")).toContain("Their lines are not yours.");
    const sizes = await page.evaluate(() =>
      [".elsewhere li", ".sum li"].map((one) => getComputedStyle(document.querySelector(one) as Element).fontSize),
    );
    expect(Number.parseFloat(sizes[0] as string)).toBeLessThan(Number.parseFloat(sizes[1] as string));
    await page.close();
  });

  test("the record's own pack lists its lots near their date and those called back", async () => {
    const page = await open("/count/pack");
    await page.waitForSelector('[data-paper="two cases"]');
    const fourth = await said(page, '[data-paper="monthly pack"] >> nth=3');
    expect(fourth).toContain("Lots near their date");
    expect(fourth).not.toContain("Not in a line table");
    expect(await said(page, '[data-paper="two cases"]')).not.toMatch(/Ward|practice-|\b20\d\d\b/);
    await page.close();
  });

  test("a line's story opens from its page, names nobody, warns, saves and fits its sheet", async () => {
    const page = await open("/count");
    await page.goto(`${served.address}/#/line/practice-birk`);
    await page.click('[data-paper-link="case"]');
    await page.waitForSelector('[data-paper="case"]');
    const text = await said(page, '[data-paper="case"]');
    expect(text).toContain("Day 29");
    expect(text).not.toMatch(/Ward|practice-birk|\b20\d\d\b/);
    expect(await said(page, '[role="alert"]')).toContain("Ask before you show it.");
    const [download] = await Promise.all([page.waitForEvent("download"), page.click('[data-save="csv"]')]);
    expect(download.suggestedFilename()).toBe("line-story.csv");
    expect(readFileSync(await download.path(), "utf8")).toMatch(/^day,what,fact,value,unit\r\n/);
    const long = await page.evaluate(
      () =>
        [...document.querySelectorAll(".sheet-body")].filter((body) => body.scrollHeight > body.clientHeight + 1)
          .length,
    );
    expect(long).toBe(0);
    await page.close();
  });

  test("the pack prints on as many pages as it has sheets, none of them empty", async () => {
    const page = await open("/count/pack");
    await page.waitForSelector('[data-paper="two cases"]');
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(5);
    await page.close();
  });

  test("the four pages and the two cases print, last month's action first", async () => {
    const page = await openYear(`/count?${OF_2025}`);
    await page.evaluate(() => {
      globalThis.location.hash = "#/count/pack?from=2025-12-01&to=2026-01-01";
    });
    await page.waitForSelector(".plate-page");
    expect(await page.locator(".plate-page").count()).toBe(5);
    await page.fill('[data-action="what"]', "Smaller lines first");
    await page.fill('[data-action="owner"]', "R. Voss");
    await page.fill('[data-action="due"]', "2025-12-15");
    await page.waitForFunction(() => document.querySelector(".sheet-body")?.textContent.includes("Smaller lines"));
    expect(await said(page, ".plate-page >> nth=0")).toMatch(/Last month's action Smaller lines first\. R\. Voss/);
    const long = await page.evaluate(
      () =>
        [...document.querySelectorAll(".sheet-body")].filter((body) => body.scrollHeight > body.clientHeight + 1)
          .length,
    );
    expect(long).toBe(0);
    await page.close();
  });

  test("at 360 px nothing is wider than the page", async () => {
    const page = await browser.newPage({ viewport: { width: 360, height: 800 } });
    await page.goto(`${served.address}/#/count?from=2020-01-01&to=2100-01-01&measure=occlusion`);
    const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
    // the invented record never names a blocked line: a plate would draw its nought with limits
    await page.waitForSelector('[data-sum="occlusion"]');
    expect(await page.locator(".count-plates figure").count()).toBe(0);
    expect(await wide()).toBeLessThanOrEqual(360);
    await page.setInputFiles('[data-open="lines"]', YEAR);
    await page.waitForSelector(".count-plates figure");
    expect(await wide()).toBeLessThanOrEqual(360);
    await page.close();
  });
});
