import { describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { generatedYear } from "../../reference/generated-year.ts";
import { servedBrowser } from "./served-browser.ts";

// How Count looks: what the first screen of a phone holds, plates crowded on purpose, and its paper. Least type of 11 px,
// level words, nothing on another: common practice, no source. WCAG 2.2: 1.4.10 reflow, 2.1.1 all by keys.
const { browser, served } = await servedBrowser();
const YEAR = "reference/independent/r/count-year.csv";
const OF_2025 = "from=2025-01-01&to=2026-01-01";
const LONG = "The Eastern Regional Directorate of General and Vascular Medicine and Surgery";

/** The invented year on forty wards whose names take eighty signs and differ in the last two. */
function fortyWards(): string {
  const [head = "", ...rows] = generatedYear(5, 2000).split("\n");
  const at = head.split(",").indexOf("ward");
  const renamed = rows.map((row, line) => {
    const cells = row.split(",");
    if (cells.length > at) cells[at] = `${LONG} ${String(1 + ((line * 7) % 40)).padStart(2, "0")}`;
    return cells.join(",");
  });
  return [head, ...renamed].join("\n");
}

async function open(
  path: string,
  file: Parameters<Page["setInputFiles"]>[1],
  lines: number,
  width: number,
  dark = false,
) {
  const page = await browser.newPage({
    viewport: { width, height: 800 },
    ...(dark && { colorScheme: "dark" as const }),
  });
  await page.goto(`${served.address}/#${path}`);
  await page.waitForSelector(".count");
  await page.setInputFiles('[data-open="lines"]', file);
  await page.waitForSelector(`[data-given="${lines}"]`);
  return page;
}
const drawn = async (page: Page): Promise<void> => {
  await page.waitForSelector(".count-plates figure");
  await page.waitForFunction(() => !document.querySelector(".count-plates .waiting"), undefined, { timeout: 60_000 });
};

/** Every word of every plate that is too small, turned, out of its plate or on another word. */
const faultsOfWords = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<SVGSVGElement>(".count-plate")].flatMap((plate) => {
      const sheet = plate.getBoundingClientRect();
      const scale = sheet.width / plate.viewBox.baseVal.width;
      const words = [...plate.querySelectorAll("text")].map((word) => ({
        said: word.textContent,
        box: word.getBoundingClientRect(),
        size: Number(word.getAttribute("font-size")) * scale,
        turned: word.closest("[transform]") !== null,
      }));
      const name = plate.getAttribute("aria-labelledby");
      return words.flatMap(({ said, box, size, turned }, at) => [
        ...(size < 11 ? [`${name}: "${said}" of ${size} px`] : []),
        ...(turned ? [`${name}: "${said}" is turned`] : []),
        ...(box.left < sheet.left - 1 || box.right > sheet.right + 1 ? [`${name}: "${said}" leaves the plate`] : []),
        ...words
          .slice(at + 1)
          .filter(
            ({ box: other }) =>
              box.left < other.right - 1 &&
              other.left < box.right - 1 &&
              box.top < other.bottom - 4 &&
              other.top < box.bottom - 4,
          )
          .map((other) => `${name}: "${said}" on "${other.said}"`),
      ]);
    }),
  );

describe("the first screen of a phone", () => {
  test("holds what stands apart, what to mend and the first figure; the rest folds away and opens by keys", async () => {
    const page = await open(`/count?${OF_2025}`, YEAR, 900, 360);
    const foot = (await page.locator(".device-line").boundingBox())!.y;
    const bottom = async (selector: string) => {
      const box = (await page.locator(selector).boundingBox())!;
      return box.y + box.height;
    };
    expect(await bottom(".glance .headline")).toBeLessThan(foot);
    expect(await page.locator(".glance .mend").innerText()).toContain("To mend first");
    expect(await bottom(".glance .mend")).toBeLessThan(foot);
    const figure = (await page.locator(".glance .count-plate").boundingBox())!;
    // at least its first rate, and not a sliver of it
    expect(figure.y + 100).toBeLessThan(foot);
    expect(await page.locator(".period").isVisible()).toBe(false);
    for (const fold of ["more", "ask"]) {
      const summary = page.locator(`[data-fold="${fold}"] > summary`);
      await summary.focus();
      await page.keyboard.press("Enter");
      expect(await page.locator(`[data-fold="${fold}"]`).getAttribute("open")).not.toBeNull();
    }
    expect(await page.locator(".period").isVisible()).toBe(true);
    expect(await page.locator('[data-fold="more"]').innerText()).toContain("A zero there may mean that nobody asks.");
    // the rate that stands apart carries its word; its numbers are R's: 32 in 12,392 days and 6 in 6,035
    expect(await page.locator(".glance .count-plate").innerHTML()).toMatch(/>higher<.*>32 in 12,392<.*>6 in 6,035</s);
    await page.close();
  });
});

describe("plates crowded on purpose", () => {
  test.each([360, 820, 1280])(
    "forty wards of eighty signs at %i px: no word on another, none too small",
    async (width) => {
      const file = { name: "wards.csv", mimeType: "text/csv", buffer: Buffer.from(fortyWards()) };
      const page = await open(`/count?${OF_2025}&measure=occlusion&by=ward`, file, 2000, width, width === 820);
      await drawn(page);
      expect(await faultsOfWords(page)).toEqual([]);
      const wards = page.locator("[data-ward]");
      expect(await wards.count()).toBe(40);
      // the whole name stands in the title of its dot and in the table
      expect(await wards.first().locator("title").textContent()).toMatch(new RegExp(`^${LONG} \\d\\d$`));
      const names = await page.locator('figure:has([aria-labelledby="count-wards-title"]) tbody th').allTextContents();
      expect(names).toHaveLength(40);
      expect(names.every((name) => name.startsWith(LONG))).toBe(true);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
      await page.close();
    },
  );

  test.each([360, 1280])("ten years and the states at %i px: longer spans, level words", async (width) => {
    const page = await open(
      "/count?from=2015-02-01&to=2026-01-01&measure=occlusion",
      "reference/independent/survival/line-states.csv",
      400,
      width,
    );
    await drawn(page);
    expect(await faultsOfWords(page)).toEqual([]);
    expect(await page.locator('figure:has([aria-labelledby="count-rate-title"]) figcaption').innerText()).toContain(
      "year by year",
    );
    // limits of R's survfit on the same file by day 14: 35 to 45 of a hundred still in and never blocked
    expect(
      await page.locator('[aria-labelledby="count-states-title"] [data-limits="never blocked"][data-day="14"]').count(),
    ).toBe(1);
    await page.close();
  });

  test("one line with one event is drawn at 360 px without a plate of nothing", async () => {
    const one =
      "line_key,patient_key,placed_at,end_kind,end_at,end_reason,events\nL1,P1,2025-03-01,removed,2025-04-01,blocked,occlusion@2025-04-01\n";
    const file = { name: "one.csv", mimeType: "text/csv", buffer: Buffer.from(one) };
    const page = await open(`/count?${OF_2025}&measure=occlusion&by=ward`, file, 1, 360);
    await drawn(page);
    expect(await faultsOfWords(page)).toEqual([]);
    expect(await page.locator('[aria-labelledby="count-map-title"]').count()).toBe(0);
    await page.close();
  });
});

test("a share is drawn with its limits and its number, month by month and by its parts", async () => {
  const page = await open(`/count?${OF_2025}&measure=first-attempt&by=ward`, YEAR, 900, 360);
  await drawn(page);
  expect(await page.locator(".count-plates [data-span]").count()).toBe(12);
  expect(await page.locator(".count-plates [data-lower]").count()).toBe(12);
  expect(await page.locator('[aria-labelledby="count-parts-title"] [data-lower]').count()).toBe(5);
  expect(await faultsOfWords(page)).toEqual([]);
  await page.close();
});

test("the plates of a large table come from a thread of their own, the page answering meanwhile", async () => {
  const file = { name: "large.csv", mimeType: "text/csv", buffer: Buffer.from(generatedYear(7, 20_000)) };
  const page = await open(`/count?${OF_2025}&measure=thrombosis`, file, 20_000, 1280);
  await drawn(page);
  expect(page.workers()).toHaveLength(1);
  expect(await page.locator(".count-plates figure").count()).toBe(5);
  expect(await page.locator(".count-plates [data-guard]").count()).toBeGreaterThan(0);
  await page.close();
});

describe("Count on paper", () => {
  test.each([
    ["A4", 595, 842],
    ["Letter", 612, 792],
  ] as const)("%s from a dark narrow screen: open, light, whole and without a press", async (format, wide, high) => {
    const page = await open(`/count?${OF_2025}&measure=first-attempt&by=ward`, YEAR, 900, 360, true);
    await drawn(page);
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe("rgb(255, 255, 255)");
    expect(await page.locator('[data-fold="more"] li').first().isVisible()).toBe(true);
    expect(await page.locator(".count-plates .numbers td").first().isVisible()).toBe(true);
    for (const press of [".period input", ".split", ".own", ".to-pack", "summary", ".file-press", ".device-line"])
      expect(await page.locator(press).first().isVisible(), press).toBe(false);
    const whole = await page.evaluate(() =>
      [...document.querySelectorAll(".count .drawing, .count tr")].every(
        (one) => getComputedStyle(one).breakInside === "avoid",
      ),
    );
    expect(whole).toBe(true);
    const pdf = (await page.pdf({ format })).toString("latin1");
    // ISO 216 and ANSI, in points
    const [, width, height] = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) as unknown as [string, string, string];
    expect(Math.abs(Number(width) - wide)).toBeLessThan(1);
    expect(Math.abs(Number(height) - high)).toBeLessThan(1);
    // the list of figures, one pressed open, and no empty sheet behind
    const sheets = pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    expect(sheets).toBeGreaterThanOrEqual(4);
    expect(sheets).toBeLessThanOrEqual(9);
    await page.close();
  });
});
