import { describe, expect, test } from "vitest";
import { openPractice, type Page } from "../browser/browser.ts";
import { servedBrowser } from "../browser/served-browser.ts";

const { browser, served } = await servedBrowser();

/** Brightness of a small patch of the screen, from the browser's own picture of it: mean and spread. */
async function patch(page: Page, selector: string): Promise<{ readonly mean: number; readonly spread: number }> {
  const box = await page.locator(selector).first().boundingBox();
  if (!box) throw new Error(`nothing drawn at ${selector}`);
  const size = {
    x: Math.round(box.x + box.width / 2 - 14),
    y: Math.round(box.y + 4),
    width: 28,
    height: Math.round(Math.min(18, box.height - 8)),
  };
  const picture = (await page.screenshot({ clip: size })).toString("base64");
  return page.evaluate(async (data) => {
    const image = new Image();
    image.src = `data:image/png;base64,${data}`;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = image.width;
    canvas.height = image.height;
    const context = canvas.getContext("2d") as CanvasRenderingContext2D;
    context.drawImage(image, 0, 0);
    const { data: bytes } = context.getImageData(0, 0, canvas.width, canvas.height);
    const grey: number[] = [];
    for (let index = 0; index < bytes.length; index += 4)
      grey.push(
        0.299 * (bytes[index] as number) + 0.587 * (bytes[index + 1] as number) + 0.114 * (bytes[index + 2] as number),
      );
    const mean = grey.reduce((sum, value) => sum + value, 0) / grey.length;
    const spread = Math.sqrt(grey.reduce((sum, value) => sum + (value - mean) ** 2, 0) / grey.length);
    return { mean, spread };
  }, picture);
}

const kinds = ["protanopia", "deuteranopia", "tritanopia", "achromatopsia"] as const;

describe("seen without colour", () => {
  for (const type of kinds) {
    test(`with ${type} the thirds differ by texture, and every mark has its word`, async () => {
      const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
      const page = await context.newPage();
      await openPractice(page, served.address, "coin-flip");
      const devtools = await context.newCDPSession(page);
      await devtools.send("Emulation.setEmulatedVisionDeficiency", { type });
      const lower = await patch(page, '.arm-strip [data-part="lower-third"]');
      const upper = await patch(page, '.arm-strip [data-part="upper-third"]');
      const preferred = await patch(page, '.arm-strip [data-part="preferred-half"]');
      // hatching and stipple are rough, a wash is smooth: that survives any eye and any copier
      expect(lower.spread).toBeGreaterThan(20);
      expect(upper.spread).toBeGreaterThan(20);
      expect(preferred.spread).toBeLessThan(lower.spread / 2);
      const marks = await page
        .locator(".reasons .mark")
        .evaluateAll((all) => all.map((mark) => `${mark.textContent} ${mark.getAttribute("aria-label")}`));
      expect(new Set(marks).size).toBe(3);
      expect(marks).toContain("? ask");
      const words = await page.locator(".arm-strip text").allTextContents();
      for (const word of ["lower third", "middle third", "preferred half", "upper third"])
        expect(words).toContain(word);
      await context.close();
    });
  }
});
