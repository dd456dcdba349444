import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { generatedYear } from "../reference/generated-year.ts";
import { launchBrowser, startServer } from "../test/browser/browser.ts";
import type { BenchmarkRow } from "./plan.ts";

const LINES = Number(process.env["VEINWRIGHT_PAGE_LINES"] ?? 100_000);
const ROUNDS = 9;

/** The Count page on a register of 100,000 lines: from a press to the figures on screen, in a real browser. */
export async function benchmarkCountPage(): Promise<readonly BenchmarkRow[]> {
  const folder = mkdtempSync(join(tmpdir(), "veinwright-count-page-"));
  const served = await startServer();
  const browser = await launchBrowser();
  try {
    const file = join(folder, "lines.csv");
    writeFileSync(file, generatedYear(7, LINES));
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.goto(`${served.address}/#/count`);
    await page.waitForSelector(".count");
    const since = performance.now();
    await page.setInputFiles('[data-open="lines"]', file);
    await page.waitForSelector(`[data-given="${LINES}"]`, { timeout: 120_000 });
    const opened = performance.now() - since;
    const list = await redraws(page, ["2025-01-31", "2025-02-28", "2025-06-30", "2025-12-31"], "2025-01-01", "");
    const pressed = await redraws(
      page,
      ["2025-03-31", "2025-09-30", "2025-12-31"],
      "2025-01-01",
      "&measure=occlusion&by=ward",
    );
    const of = (name: string, { median, longest }: Taken): readonly BenchmarkRow[] => [
      { name: `count page, ${LINES} lines: ${name}`, median, unit: "ms" },
      { name: "the same, longest task on the page's thread", median: longest, unit: "ms" },
    ];
    return [
      { name: `count page, ${LINES} lines: file read and first figures`, median: opened, unit: "ms" },
      ...of("every measure again after a change of days", list),
      ...of("a pressed number and its parts after a change of days", pressed),
    ];
  } finally {
    await browser.close();
    served.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Taken {
  readonly median: number;
  readonly longest: number;
}

/** Changes the last day again and again; from the change to the frame after the new sentence stands. */
async function redraws(page: Page, lasts: readonly string[], from: string, more: string): Promise<Taken> {
  const hash = (last: string) => `#/count?from=${from}&to=${last}${more}`;
  await page.evaluate((to) => void (location.hash = to), hash("2025-10-31"));
  await page.waitForTimeout(4000);
  return page.evaluate(
    async ({ hashes, rounds }) => {
      const tasks: number[] = [];
      const seen = new PerformanceObserver((entries) => {
        for (const { duration } of entries.getEntries()) tasks.push(duration);
      });
      seen.observe({ entryTypes: ["longtask"] });
      const frame = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
      const said = () =>
        `${document.querySelector(".count-span")?.textContent}${document.querySelector(".parts")?.textContent ?? ""}`;
      const taken: number[] = [];
      for (let round = 0; round < rounds; round += 1) {
        const before = said();
        const start = performance.now();
        location.hash = hashes[round % hashes.length] as string;
        while (said() === before && performance.now() - start < 20_000) await frame();
        await frame();
        taken.push(performance.now() - start);
        // the plates are drawn after the number, each in a task of its own
        await new Promise((resolve) => setTimeout(resolve, 3000));
      }
      seen.disconnect();
      taken.sort((a, b) => a - b);
      return { median: taken[Math.floor(taken.length / 2)] as number, longest: Math.max(0, ...tasks) };
    },
    { hashes: lasts.map(hash), rounds: ROUNDS },
  );
}
