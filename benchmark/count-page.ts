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
    await page.evaluate(watchTasks);
    const since = performance.now();
    await page.setInputFiles('[data-open="lines"]', file);
    await page.waitForSelector(`[data-given="${LINES}"]`, { timeout: 120_000 });
    const opened = performance.now() - since;
    const longest = await page.evaluate(() => (globalThis as unknown as { longest: number }).longest);
    const list = await redraws(page, ["2025-01-31", "2025-02-28", "2025-06-30", "2025-12-31"], "2025-01-01", "");
    const pressed = await redraws(
      page,
      ["2025-03-31", "2025-09-30", "2025-12-31"],
      "2025-01-01",
      "&measure=occlusion&by=ward",
    );
    const of = (name: string, { median: wall, processor, longest }: Taken): readonly BenchmarkRow[] => [
      { name: `count page, ${LINES} lines: ${name}`, median: wall, unit: "ms" },
      { name: "the same, processor time of the page's thread", median: processor, unit: "ms" },
      { name: "the same, longest task on the page's thread", median: longest, unit: "ms" },
    ];
    return [
      { name: `count page, ${LINES} lines: file read and first figures`, median: opened, unit: "ms" },
      { name: "the same, longest task on the page's thread", median: longest, unit: "ms" },
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
  readonly processor: number;
  readonly longest: number;
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/**
 * Changes the last day again and again; from the change to the frame after the new sentence stands, by the clock and by
 * the processor time of the page's own thread, which a busy machine does not lengthen.
 */
async function redraws(page: Page, lasts: readonly string[], from: string, more: string): Promise<Taken> {
  const hash = (last: string) => `#/count?from=${from}&to=${last}${more}`;
  await page.evaluate((to) => void (location.hash = to), hash("2025-10-31"));
  await page.waitForTimeout(6000);
  const devtools = await page.context().newCDPSession(page);
  await devtools.send("Performance.enable", { timeDomain: "threadTicks" });
  const busy = async (): Promise<number> => {
    const { metrics } = await devtools.send("Performance.getMetrics");
    return 1000 * (metrics.find(({ name }) => name === "TaskDuration")?.value ?? Number.NaN);
  };
  const [walls, processors, tasks]: [number[], number[], number[]] = [[], [], []];
  for (let round = 0; round < ROUNDS; round += 1) {
    const before = await busy();
    const { taken, longest } = await page.evaluate(oneRedraw, hash(lasts[round % lasts.length] as string));
    processors.push((await busy()) - before);
    walls.push(taken);
    tasks.push(longest);
    // the plates are drawn after the number, each in a task of its own
    await page.waitForTimeout(5000);
  }
  await devtools.detach();
  return { median: median(walls), processor: median(processors), longest: Math.max(...tasks) };
}

/** Runs in the page: keeps the longest task from now on. */
function watchTasks(): void {
  const kept = globalThis as unknown as { longest: number };
  kept.longest = 0;
  new PerformanceObserver((entries) => {
    for (const { duration } of entries.getEntries()) kept.longest = Math.max(kept.longest, duration);
  }).observe({ entryTypes: ["longtask"] });
}

/** Runs in the page. */
async function oneRedraw(hash: string): Promise<{ taken: number; longest: number }> {
  const tasks: number[] = [0];
  const seen = new PerformanceObserver((entries) => {
    for (const { duration } of entries.getEntries()) tasks.push(duration);
  });
  seen.observe({ entryTypes: ["longtask"] });
  const said = () =>
    `${document.querySelector(".count-span")?.textContent}${document.querySelector(".parts")?.textContent ?? ""}`;
  const before = said();
  const start = performance.now();
  await new Promise<void>((resolve) => {
    const changed = new MutationObserver(() => {
      if (said() === before) return;
      changed.disconnect();
      requestAnimationFrame(() => resolve());
    });
    changed.observe(document.body, { subtree: true, childList: true, characterData: true });
    location.hash = hash;
  });
  const taken = performance.now() - start;
  seen.disconnect();
  return { taken, longest: Math.max(...tasks) };
}
