import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { LINE_PAPER_NAMES } from "../../src/paper/line/index.ts";
import { plain } from "./journey-kit.ts";

/** Each paper of the line as it prints: one page, the person's number on it, and no colour in any of its points. */
export async function everyPaper(page: Page, number: string): Promise<void> {
  const lineAddress = page.url();
  const names = await page
    .locator("[data-paper-link]")
    .evaluateAll((links) => links.map((link) => link.getAttribute("data-paper-link")));
  // the story for teaching names nobody and is signed by nobody: it has its own test
  expect(names).toEqual([...LINE_PAPER_NAMES, "case"]);
  const folder = mkdtempSync(join(tmpdir(), "veinwright-paper-"));
  for (const name of LINE_PAPER_NAMES) {
    await page.locator(`[data-paper-link="${name}"]`).click();
    await page.locator('.paper-route [data-sign="sign"]').waitFor();
    // nothing is cut off at the foot of a sheet
    await page.waitForFunction(() =>
      [...document.querySelectorAll(".sheet-body")].every((body) => body.scrollHeight <= body.clientHeight + 1),
    );
    const file = join(folder, `${name}.pdf`);
    await page.pdf({ preferCSSPageSize: true, path: file });
    expect([name, /Pages:\s+(\d+)/.exec(run("pdfinfo", file).toString())?.[1]]).toEqual([name, "1"]);
    expect(plain(run("pdftotext", file, "-").toString())).toContain(number);
    expect([name, mostColour(run("pdftoppm", "-r", "50", file))]).toEqual([name, 0]);
    await page.goto(lineAddress);
    await page.locator("[data-release]").waitFor();
  }
  rmSync(folder, { recursive: true });
}

const run = (program: string, ...words: readonly string[]): Buffer =>
  execFileSync(program, words, { maxBuffer: 50_000_000 });

/** The widest distance between red, green and blue at any point of a picture in the format P6. */
function mostColour(picture: Buffer): number {
  const head = /^P6\s+\d+\s+\d+\s+255\s/.exec(picture.subarray(0, 40).toString("latin1"))?.[0] ?? "";
  expect(head).not.toBe("");
  let most = 0;
  for (let at = head.length; at + 2 < picture.length; at += 3) {
    const [red = 0, green = 0, blue = 0] = picture.subarray(at, at + 3);
    most = Math.max(most, Math.max(red, green, blue) - Math.min(red, green, blue));
  }
  return most;
}
