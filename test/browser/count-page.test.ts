import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { generatedYear } from "../../reference/generated-year.ts";
import { servedBrowser } from "./served-browser.ts";

// The invented year is the one R counted too (reference/independent/r): its numbers are R's, not this page's.
const YEAR = "reference/independent/r/count-year.csv";
const OF_2025 = "from=2025-01-01&to=2026-01-01";

const { browser, served } = await servedBrowser();

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

  test("a ward outside chance is named under its plate, and pressed it shows its own sum and lines", async () => {
    const page = await openYear(`/count?${OF_2025}&measure=infection-clinical&by=ward`);
    // R 4.2: 14 of 32 infections in 3,232 of 12,392 days, pbinom(13, 32, 3232 / 12392, lower.tail = FALSE) = 0.0219
    const plate = page.locator('figure:has([aria-labelledby="count-wards-title"])');
    await plate.waitFor();
    expect(await plate.locator('[data-ward="B"]').getAttribute("data-stands")).toBe("above");
    expect(await said(page, 'figure:has([aria-labelledby="count-wards-title"]) figcaption')).toContain(
      "B stands above its limits: 14, 8.3 expected. Chance alone puts about 0.1 of 5 outside.",
    );
    await page.focus('[data-part="ward B"]');
    await page.keyboard.press("Enter");
    const own = page.locator('[data-part-sum="ward B"]');
    await own.waitFor();
    expect(page.url()).toContain("part=ward%20B");
    expect(await own.locator(".counted li").count()).toBe(14);
    expect(await said(page, '[data-part-sum="ward B"] .sum')).toContain("14 ÷ 3,232");
    // the plate stands at every width without a sideways scroll
    for (const width of [360, 820, 1280]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    }
    await page.close();
  });

  test("where lines are by the day is drawn only where somebody wrote when a line ran again", async () => {
    const silent = await openYear(`/count?${OF_2025}&measure=occlusion`);
    await silent.locator("[data-no-states]").waitFor();
    expect(await said(silent, "[data-no-states]")).toContain("nobody wrote when a line ran again");
    expect(await silent.locator('[aria-labelledby="count-states-title"]').count()).toBe(0);
    await silent.close();
    const page = await open(`/count?${OF_2025}&measure=occlusion`);
    await page.setInputFiles('[data-open="lines"]', "reference/independent/survival/line-states.csv");
    await page.waitForSelector('[data-given="400"]');
    const plate = page.locator('figure:has([aria-labelledby="count-states-title"])');
    await plate.waitFor();
    // R's survfit of several states on the same file: 0.398, 0.030, 0.152 and 0.420 by day 14
    await plate.locator("summary").click();
    const row = (await plate.locator("tr", { hasText: /^14/ }).first().innerText()).replaceAll(/\s+/g, " ");
    expect(row).toContain("40");
    expect(row).toMatch(/^14 232 40 35 to 45 3\.0/);
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
    expect(await page.locator(".count-plates figure").count()).toBe(5);
    expect(await page.locator(".count-plates details table").count()).toBe(5);
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

  test("a large file is read on a thread of its own: the page answers meanwhile, and the reading stops when asked", async () => {
    const page = await open();
    const file = { name: "large.csv", mimeType: "text/csv", buffer: Buffer.from(generatedYear(7, 60_000)) };
    await page.setInputFiles('[data-open="lines"]', file);
    await page.waitForSelector(".reading progress");
    expect(page.workers().length).toBe(1);
    // a press in the middle of the reading is answered by the page, not after it
    await page.evaluate((to) => void (location.hash = to), `#/count?${OF_2025}`);
    await expect.poll(() => said(page, ".count-span")).toContain("1 Jan 2025");
    expect(await page.locator(".reading progress").count()).toBe(1);
    await page.locator('[data-reading="stop"]').press("Enter");
    await expect.poll(() => said(page, "[data-told]")).toContain("Nothing was opened.");
    expect(await page.locator("[data-used]").getAttribute("data-given")).toBe("12");
    await expect.poll(() => page.workers().length, { timeout: 20_000 }).toBe(0);
    await page.setInputFiles('[data-open="lines"]', file);
    await page.waitForSelector('[data-given="60000"]', { timeout: 90_000 });
    await expect.poll(() => page.locator(".reading").count()).toBe(0);
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

  // common practice, no source: what cannot be pressed on paper is not on it
  test("on US Letter the pack keeps its five pages, whole and over 7 pt, and the choice is kept on the device", async () => {
    const page = await openYear(`/count?${OF_2025}`);
    const toPack = () =>
      page.evaluate(() => {
        globalThis.location.hash = "#/count/pack?from=2025-12-01&to=2026-01-01";
      });
    await toPack();
    await page.selectOption('[data-pack="paper"]', "letter");
    await page.waitForSelector(".line-paper.letter");
    const bodies = page.locator(".line-paper.letter .sheet-body");
    await page.waitForFunction(() =>
      [...document.querySelectorAll(".sheet-body")].every((body) => body.scrollHeight <= body.clientHeight + 1),
    );
    for (const size of await bodies.evaluateAll((all) =>
      all.map((body) => Number.parseFloat(getComputedStyle(body).fontSize)),
    ))
      expect((size * 72) / 96).toBeGreaterThan(6.99);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(5);
    // 8.5 by 11 inches
    expect(pdf).toMatch(/MediaBox\s*\[0 0 612(\.\d+)? 79[12](\.\d+)?\]/);
    expect(await page.evaluate(() => globalThis.localStorage.getItem("veinwright.paper"))).toBe("letter");
    await page.close();
  });

  test("the Count page prints its figures without a press, a box or a cut list that is not told", async () => {
    const page = await openYear(`/count?${OF_2025}&measure=occlusion`);
    await page.waitForSelector('[data-sum="occlusion"] .counted');
    await page.emulateMedia({ media: "print" });
    const seen = await page.evaluate(() =>
      [...document.querySelectorAll(".count button, .count input, .count select, .count fieldset, .count a[href]")]
        .filter((one) => one.getClientRects().length > 0)
        .map((one) => one.className || one.textContent || ""),
    );
    expect(new Set(seen)).toEqual(new Set(["figure-number"]));
    expect(await said(page, '[data-sum="occlusion"]')).toMatch(
      /Lines counted, 63 .* 39 more lines are not shown here\./,
    );
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
