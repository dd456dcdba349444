import { describe, expect, test } from "vitest";
import { openPractice } from "./browser.ts";
import { servedBrowser } from "./served-browser.ts";

const { browser, served } = await servedBrowser();

describe("see the flow", () => {
  test("opens alone, and keys move the catheter from the middle to the wall", async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`${served.address}/#/flow`);
    const flow = async () => Number(await page.locator(".flow-section").getAttribute("data-flow"));
    await page.waitForSelector(".flow-section");
    const centred = await flow();
    await page.locator('input[type="range"]').focus();
    await page.keyboard.press("End");
    await expect.poll(flow).toBeGreaterThan(2 * centred);
    expect(await page.locator("figcaption").first().innerText()).toContain("leaning on the wall");
    await page.keyboard.press("Home");
    await expect.poll(flow).toBeCloseTo(centred, 12);
    await page.close();
  });

  test("a pointer drags it, and the printed flow follows", async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`${served.address}/#/flow`);
    const box = await page.locator(".flow-section").boundingBox();
    if (!box) throw new Error("no figure");
    const at = (x: number) => box.x + (x / 900) * box.width;
    const y = box.y + box.height * 0.45;
    await page.mouse.move(at(220), y);
    await page.mouse.down();
    await page.mouse.move(at(320), y, { steps: 5 });
    await page.mouse.up();
    const offset = async () => Number(await page.locator(".flow-section").getAttribute("data-offset"));
    await expect.poll(offset).toBeGreaterThan(0.5);
    expect(await page.locator(".flow-section text.under").first().textContent()).toMatch(/\d+\s%/);
    await page.close();
  });

  test("from a plan it starts at that plan's vein and catheter", async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await openPractice(page, served.address, "plain");
    await page.locator(".flow-left summary").click();
    expect(await page.locator(".flow-left p").first().innerText()).toContain("One French more:");
    await page.locator(".flow-left a").click();
    await page.waitForSelector(".flow-section");
    expect(Number(await page.locator(".flow-section").getAttribute("data-ratio"))).toBeCloseTo(1 / 4.1, 2);
    await page.close();
  });

  test("a lumen and a mixture answer below, and say what they do not permit", async () => {
    const page = await browser.newPage();
    await page.goto(`${served.address}/#/flow`);
    await page.locator("section", { hasText: "What one lumen carries" }).waitFor();
    expect(await page.locator(".flow").innerText()).toContain("Model, teaching only.");
    await page.locator("label", { hasText: "Blood past the tip" }).locator("input").fill("0");
    await expect.poll(() => page.locator(".flow").innerText()).toContain("After mixing: 1700 mOsm/L");
    expect(await page.locator(".flow").innerText()).toContain("This never permits peripheral use.");
    await page.close();
  });

  test("nonsense is asked about, and a filled vein is refused in words", async () => {
    const page = await browser.newPage();
    await page.goto(`${served.address}/#/flow`);
    const vein = page.locator(".flow-entry .typed input").first();
    await vein.fill("1,0");
    await expect.poll(() => page.locator(".flow .headline").innerText()).toContain("fills the vein");
    await vein.fill("wide");
    await expect.poll(() => page.locator(".flow .headline").innerText()).toContain("Type the inside diameter");
    await page.close();
  });
});
