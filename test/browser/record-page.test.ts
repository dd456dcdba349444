import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Browser } from "playwright-core";
import { launchBrowser, startServer } from "./browser.ts";

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

const open = async (path: string) => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(`${served.address}/#${path}`);
  await page.waitForSelector(".device-line");
  return page;
};

describe("the record, rehearsed", () => {
  test("a line that moved before a vesicant is refused, and the vesicant is listed", async () => {
    const page = await open("/line/practice-birk");
    expect(await page.locator("[data-release]").getAttribute("data-release")).toBe("ended");
    expect(await page.locator(".used-since").innerText()).toContain("vesicant");
    expect(await page.locator("[data-film]").count()).toBe(0);
    await page.close();
  });

  test("the film says three numbers while nothing has moved since", async () => {
    const page = await open("/line/practice-falk");
    const said = (await page.locator("[data-film]").innerText()).replaceAll("\u2009", " ");
    expect(said).toBe("Withdraw by 2.5 cm. Outside length will be 3.0 cm. Inside will be 41.0 cm. Read back.");
    await page.close();
  });

  test("sides that differ refuse the release", async () => {
    const page = await open("/line/practice-thorn");
    expect(await page.locator("[data-release]").getAttribute("data-release")).toBe("not released");
    await page.close();
  });

  test("a visit with no blood return restricts the line as soon as it is signed", async () => {
    const page = await open("/line/practice-rowan");
    expect(await page.locator("[data-release]").getAttribute("data-release")).toBe("may be used");
    await page.click('[data-write="CareGiven"]');
    await page.fill('input[data-field="outsideCm"]', "2,0");
    await page.check('input[data-field="bloodReturn"][data-value="no"]');
    await page.click('[data-sign="sign"]');
    expect(await page.locator(".signing .fault").innerText()).toContain("Who signs?");
    await page.fill('[data-sign="initials"]', "JT");
    await page.selectOption('[data-sign="role"]', "ward nurse");
    await page.click('[data-sign="sign"]');
    await page.waitForSelector("[data-release]");
    expect(await page.locator("[data-release]").getAttribute("data-release")).toBe("restricted");
    await page.close();
  });

  test("every page of it says that nothing is kept", async () => {
    for (const path of ["/record", "/look-after", "/lots", "/duplicates"]) {
      const page = await open(path);
      expect(await page.locator(".device-line").innerText()).toContain("Practice patients, invented");
      await page.close();
    }
  });
});
