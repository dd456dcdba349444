import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { runCommandLine } from "../../src/cli/run.ts";
import { parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { makeFullYear } from "../../reference/independent/r/pack-year.ts";
import { writeLargeWorkbook } from "../../benchmark/large-workbook.ts";
import { makeYear } from "../specification/spreadsheet-year.ts";
import { partsOfBook, rowOfTexts, zipOfParts } from "../zip-of-parts.ts";
import { axeFindings } from "./axe-findings.ts";
import { servedBrowser } from "./served-browser.ts";

const { browser, served } = await servedBrowser();

async function open(width = 1280, colorScheme: "light" | "dark" = "light"): Promise<Page> {
  const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme });
  await page.goto(`${served.address}/#/import`);
  await page.waitForSelector('[data-import="file"]');
  return page;
}

/** The full year with a size whose unit no header tells. */
const yearOfSizes = new TextDecoder().decode(makeFullYear()).replace(",Fr,", ",Size,");

const choose = (page: Page, name: string, bytes: Uint8Array | string) =>
  page.setInputFiles('[data-import="file"]', {
    name,
    mimeType: "application/octet-stream",
    buffer: Buffer.from(bytes as Uint8Array),
  });
const told = (page: Page) => page.locator('[data-import="told"]').innerText();

async function tickAll(page: Page): Promise<void> {
  for (const tick of await page.locator(".sheet-column input[type=checkbox]").all()) await tick.check();
}

async function saved(page: Page, name: string): Promise<string> {
  const waiting = page.waitForEvent("download");
  await page.click(`[data-import="${name}"]`);
  return readFileSync(await (await waiting).path(), "utf8");
}

const shot = async (page: Page, name: string) => {
  const folder = process.env["VEINWRIGHT_SHOTS"];
  if (folder) await page.screenshot({ path: `${folder}/${name}.png` });
};

describe("import a spreadsheet", () => {
  test("a year is confirmed, read, agreed and saved, and the saved table is audited and packed", async () => {
    const page = await open();
    const asked: string[] = [];
    page.on("request", (request) => asked.push(`${request.method()} ${request.url()}`));
    await choose(page, "year.csv", yearOfSizes);
    await page.waitForSelector(".sheet-columns");
    expect(await page.locator('[data-import="read"]').isDisabled()).toBe(true);
    expect(await page.locator('[data-import="questions"]').innerText()).toContain("Size: In which unit");
    await page.locator('[data-column="Size"] select').nth(1).selectOption("Fr");
    await tickAll(page);
    await page.click('[data-import="read"]');
    await page.waitForSelector('[data-import="found"]');
    expect(await page.locator('[data-import="found"]').innerText()).toContain("420 rows read");
    const faults = await saved(page, "faults");
    expect(faults.split("\r\n")[0]).toContain("row,column,what,found");
    await page.click('[data-import="agree"]');
    expect(await page.locator(".agree .fault").innerText()).toContain("Who agrees");
    await page.fill('[data-import="initials"]', "ip");
    await page.click('[data-import="agree"]');
    await page.waitForSelector('[data-import="agreed"]');
    expect(await page.locator('[data-import="agreed"]').innerText()).toContain("lines agreed by ip, ");
    const csv = await saved(page, "table");
    const again = { read: () => csv, write: () => undefined, now: () => "15 Jan 2026, 12:00" };
    for (const words of [
      ["audit", "lines.csv"],
      ["pack", "lines.csv", "--month", "2025-12"],
    ]) {
      const { exit, output } = await runCommandLine(words, {
        ...again,
        today: () => parseCivilDate("2026-01-15") as CivilDate,
        moment: () => parseInstant("2026-01-15T12:00+01:00") as Instant,
      });
      expect([0, 2], output.slice(0, 300)).toContain(exit);
      expect(output).toContain("lines used");
    }
    // the matching is kept and used again: no tick and no answer is asked for
    const matching = await saved(page, "save-matching");
    await page.reload();
    await page.waitForSelector('[data-import="file"]');
    expect(await page.locator('[data-import="agreed"]').count()).toBe(0);
    await choose(page, "year.csv", yearOfSizes);
    await page.setInputFiles('[data-import="matching"]', {
      name: "m.json",
      mimeType: "application/json",
      buffer: Buffer.from(matching),
    });
    await page.waitForSelector('[data-import="read"]:enabled');
    // nothing was sent: only the page's own files were asked for
    expect(asked.filter((one) => !one.startsWith("GET "))).toEqual([]);
    await page.close();
  });

  // a service's own habits, invented: an order and a century asked once, wards spelled two ways, "yes" for a day
  test("a messy year: one answer serves every column of days, what is lost is told, and Count is one press away", async () => {
    const rows = [
      "101,03/04/2025,05/04/25,Ward 4,yes,",
      "102,04/04/2025,09/04/25,W4,,",
      "103,05/04/2025,Fri 11/04/2025,ward 4,07/04/2025,",
      "104,06/04/2025,12/04/25,Ward 7,,08/04/2025",
    ];
    const page = await open();
    const header = "Hosp no,Date in,Date out,Ward,Blocked (date),Line sepsis (date)";
    await choose(page, "log.csv", [header, ...rows].join("\n"));
    await page.waitForSelector(".sheet-columns");
    const taken = (column: string) => page.locator(`[data-column="${column}"] select`).first().inputValue();
    expect([await taken("Blocked (date)"), await taken("Line sepsis (date)")]).toEqual(["occlusionOn", "infectionOn"]);
    expect(await page.locator('[data-import="no-column"]').innerText()).toContain("No column for: date of clot");
    await page.locator('[data-column="Date in"] select').nth(1).selectOption("day first");
    expect(await page.locator('[data-import="questions"]').count()).toBe(0);
    await tickAll(page);
    await page.click('[data-import="read"]');
    await page.waitForSelector('[data-import="found"]');
    expect(await page.locator('[data-import="kinds"]').innerText()).toContain(
      "Something happened, and no day can be read.",
    );
    expect((await page.locator('[data-import="wards"]').allInnerTexts()).join(" ")).toContain(
      "4 wards as they will be counted: W4 1, Ward 4 1, ward 4 1, Ward 7 1.",
    );
    // the wards are merged by the keyboard alone, and not before they are named
    const focused = (selector: string) =>
      page.evaluate((one) => document.activeElement?.matches(one) ?? false, selector);
    const tabTo = async (selector: string) => {
      for (let step = 0; step < 60 && !(await focused(selector)); step += 1) await page.keyboard.press("Tab");
      expect(await focused(selector), selector).toBe(true);
    };
    await page.locator('[data-import="faults"]').focus();
    await tabTo("[data-ward-tick]");
    await page.keyboard.press("Space");
    await tabTo('[data-import="merge-wards"]');
    await page.keyboard.press("Enter");
    expect(await page.locator(".wards .fault").innerText()).toContain("Name each one that is ticked.");
    await page.locator("[data-ward-tick]").focus();
    await tabTo("[data-ward-name]");
    await page.keyboard.type("Ward 9");
    await tabTo('[data-import="merge-wards"]');
    await page.keyboard.press("Enter");
    expect(await page.locator(".wards .fault").innerText()).toContain("Different numbers are different wards.");
    await page.locator("[data-ward-name]").fill("Ward 4");
    await shot(page, "import-wards");
    await page.setViewportSize({ width: 360, height: 900 });
    expect(await axeFindings(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.locator(".wards").scrollIntoViewIfNeeded();
    await shot(page, "import-wards-360");
    await page.emulateMedia({ colorScheme: "dark" });
    await page.setViewportSize({ width: 820, height: 900 });
    await shot(page, "import-wards-820-dark");
    await tabTo('[data-import="merge-wards"]');
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.activeElement?.matches(".wards h3") ?? false);
    expect((await page.locator('[data-import="wards"]').allInnerTexts()).join(" ")).toContain(
      "2 wards as they will be counted: Ward 4 3, Ward 7 1.",
    );
    expect(await page.locator('[data-import="kinds"]').innerText()).toContain(
      "2 × The spelling of the ward was merged",
    );
    expect(await page.locator("[data-ward-tick]").isChecked()).toBe(true);
    expect(JSON.parse(await saved(page, "save-matching")).wards[0].name).toBe("Ward 4");
    await page.fill('[data-import="initials"]', "ip");
    await page.click('[data-import="agree"]');
    await page.click('[data-import="count"]');
    await page.waitForSelector(".count-source");
    expect(await page.locator(".count-source").innerText()).toContain("log.csv");
    expect(await page.locator(".count-span").getAttribute("data-given")).toBe("4");
    expect(new URL(page.url()).search).toBe("");
    await page.close();
  });

  test("a workbook in another house's style asks what only a person knows", async () => {
    const made = [...Array(20).keys()]
      .map((number) => makeYear(number))
      .find(({ house }) => house.encoding.startsWith("XLSX"));
    if (!made) throw new Error("no workbook among the houses");
    const page = await open();
    await choose(page, "house.xlsx", made.bytes);
    await page.waitForSelector(".sheet-columns");
    expect(await page.locator(".sheet-column").count()).toBe(made.fieldOfHeader.size);
    await page.close();
  });

  test("a large file is read on its own thread, shows its progress and stops", async () => {
    const lines = ["MRN,Date placed,Date removed,Arm"];
    for (let at = 0; at < 250_000; at += 1) lines.push(`${at},2025-05-01,2025-05-09,L`);
    const page = await open();
    await choose(page, "large.csv", lines.join("\n"));
    await page.waitForSelector(".sheet-columns");
    await tickAll(page);
    await page.click('[data-import="read"]');
    await page.waitForSelector(".import progress");
    await page.click('[data-reading="stop"]');
    await expect.poll(() => told(page)).toContain("The reading was stopped. Nothing was imported.");
    await page.click('[data-import="read"]');
    await page.waitForSelector('[data-import="found"]', { timeout: 60_000 });
    expect(await page.locator('[data-import="found"]').innerText()).toContain("250,000 rows read");
    await page.close();
  });

  // a small one of what was followed to its end by hand with a million rows (docs/decision/0019-spreadsheets.md)
  test("a workbook of many faults: counted, some listed and all saved, taken, and counted in Count", async () => {
    const folder = mkdtempSync(join(tmpdir(), "veinwright-faults-"));
    const path = join(folder, "faults.xlsx");
    const rows = 3000;
    await writeLargeWorkbook(path, { rows, faulty: true });
    const page = await open();
    await page.setInputFiles('[data-import="file"]', path);
    await page.waitForSelector(".sheet-columns");
    await tickAll(page);
    await page.click('[data-import="read"]');
    await page.waitForSelector('[data-import="found"]');
    const all = Number(
      / of ([\d,]+) faults/.exec(await page.locator('[data-import="listed"]').innerText())?.[1]?.replaceAll(",", ""),
    );
    // five wrong cells in each row
    expect(all).toBeGreaterThanOrEqual(5 * rows);
    await page.selectOption('[data-import="kind"]', "word not known");
    expect(await page.locator('[data-import="listed"]').innerText()).toBe(
      "100 of 6,000 faults are listed, the first of each kind.",
    );
    expect(await page.locator("[data-fault]").count()).toBe(100);
    const listed = (await saved(page, "faults")).trimEnd().split("\r\n").slice(1);
    expect(listed.length).toBe(all);
    const order = listed.map((line) => Number(line.split(",")[0]));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    await page.fill('[data-import="initials"]', "ip");
    await page.click('[data-import="agree"]');
    await page.waitForSelector('[data-import="agreed"]');
    expect(await page.locator('[data-import="agreed"]').innerText()).toContain("3,000 lines agreed by ip");
    expect((await saved(page, "table")).trimEnd().split("\r\n").length).toBe(rows + 1);
    const { lines } = JSON.parse(await saved(page, "table-json")) as { readonly lines: readonly object[] };
    expect(lines.length).toBe(rows);
    await page.goto(`${served.address}/#/count`);
    await page.click('[data-open="agreed"]');
    await expect.poll(() => page.locator("main").innerText()).toContain("of 3,000 lines used");
    await page.close();
    rmSync(folder, { recursive: true });
  });

  test("swapped date columns are told and swapped by a press; a number above several rows is asked about", async () => {
    const page = await open();
    const rows = Array.from(
      { length: 12 },
      (_, at) => `${at % 3 === 0 ? 41 + at : ""},2025-06-${10 + at},2025-05-${10 + at}`,
    );
    await choose(page, "swapped.csv", ["MRN,Date placed,Date removed", ...rows, ""].join("\n"));
    await page.waitForSelector(".sheet-columns");
    expect(await page.locator('[data-import="swapped"]').innerText()).toContain("In 12 of 12 first rows");
    await page.getByRole("button", { name: "Swap the two columns" }).click();
    expect(await page.locator('[data-import="swapped"]').count()).toBe(0);
    expect(await page.locator('[data-import="questions"]').innerText()).toContain("MRN: Some rows have no number");
    await page.getByLabel("A row without a number takes").selectOption("the number above");
    expect(await axeFindings(page)).toEqual([]);
    await tickAll(page);
    await page.click('[data-import="read"]');
    await page.waitForSelector('[data-import="found"]');
    expect(await page.locator('[data-import="found"]').innerText()).toContain("12 rows read, 0 left out, 12 new lines");
    expect(await page.locator('[data-fault="number carried down"]').count()).toBe(8);
    for (const [width, colorScheme] of [
      [360, "light"],
      [820, "dark"],
      [1280, "light"],
    ] as const) {
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      expect(await axeFindings(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      await page.locator('[data-import="found"]').scrollIntoViewIfNeeded();
      await shot(page, `import-carried-${width}-${colorScheme}`);
    }
    await page.close();
  });

  test("hostile and broken files are refused in words", async () => {
    const page = await open();
    await choose(page, "empty.csv", "");
    await expect.poll(() => told(page)).toContain("The file is empty.");
    await choose(page, "zip.xlsx", new Uint8Array([0x50, 0x4b, 3, 4, 9, 9, 9, 9]));
    await expect.poll(() => told(page)).toContain("The workbook is damaged");
    await choose(page, "old.xls", new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 1, 1]));
    await expect.poll(() => told(page)).toContain("The workbook is of the old kind");
    await choose(page, "script.csv", '__proto__,MRN,Date placed\n<img src=x onerror="alert(1)">,=1+1,2025-01-01\n');
    await page.waitForSelector(".sheet-columns");
    expect(await page.locator(".sheet-column img").count()).toBe(0);
    await page.close();
  });

  test("the record on this device is opened when asked for, and its invented patients are nobody's lines", async () => {
    const page = await open();
    expect(await page.locator('[data-import="record-invented"]').count()).toBe(0);
    await page.click('[data-import="from-record"]');
    await page.waitForSelector('[data-import="record-invented"]');
    expect(await axeFindings(page)).toEqual([]);
    await page.close();
  });

  test("a sheet is chosen, what it hides is said, and a small file too is read off the page's own thread", async () => {
    const table = (count: number) =>
      `<dimension ref="A1:C${count + 1}"/><cols><col min="3" max="3" hidden="1"/></cols><sheetData>${rowOfTexts(1, ["MRN", "Date placed", "Arm"])}${Array.from({ length: count }, (_, at) => rowOfTexts(at + 2, [String(at), "2025-05-01", "L"])).join("")}</sheetData>`;
    const parts = partsOfBook({ sheets: { May: table(3), June: table(2) }, states: { June: "hidden" } });
    const page = await open();
    await choose(page, "two.xlsx", zipOfParts(parts));
    await page.getByRole("button", { name: "June, 3 rows, hidden" }).press("Enter");
    await page.waitForSelector(".sheet-columns");
    expect(await page.locator('[data-import="hidden"]').allInnerTexts()).toEqual([
      "The sheet is hidden in the workbook. It is read all the same.",
      "Hidden in the sheet, read all the same: Arm.",
    ]);
    expect(page.workers().length).toBe(1);
    await page.close();
  });

  test("with the network off a workbook is opened, confirmed and read by the keyboard alone", async () => {
    const context = await browser.newContext({ viewport: { width: 820, height: 1100 } });
    const page = await context.newPage();
    await page.goto(`${served.address}/#/import`);
    await page.waitForSelector('[data-import="file"]');
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await context.setOffline(true);
    await page.reload();
    await page.waitForSelector('[data-import="file"]');
    const rows = ["41", "42", "43"].map((number, at) => rowOfTexts(at + 2, [number, "2025-05-01", "L"])).join("");
    const sheet = `<sheetData>${rowOfTexts(1, ["MRN", "Date placed", "Arm"])}${rows}</sheetData>`;
    await choose(page, "three.xlsx", zipOfParts(partsOfBook({ sheets: { Lines: sheet } })));
    await page.waitForSelector(".sheet-columns");
    const focused = (selector: string) =>
      page.evaluate((one) => document.activeElement?.matches(one) ?? false, selector);
    await page.locator('[data-import="file"]').focus();
    for (let step = 0; step < 60 && !(await focused('[data-import="read"]')); step += 1) {
      if ((await focused(".sheet-column input[type=checkbox]")) && !(await focused(":checked")))
        await page.keyboard.press("Space");
      await page.keyboard.press("Tab");
    }
    await page.keyboard.press("Enter");
    await page.waitForSelector('[data-import="found"]');
    expect(await page.locator('[data-import="found"]').innerText()).toContain("3 rows read");
    await context.close();
  });

  for (const [width, scheme] of [
    [1280, "light"],
    [820, "light"],
    [360, "light"],
    [360, "dark"],
    [1280, "dark"],
  ] as const)
    test(`no axe finding and nothing cut off at ${width} px in ${scheme}`, async () => {
      const page = await open(width, scheme);
      await shot(page, `import-start-${width}-${scheme}`);
      await choose(page, "year.csv", yearOfSizes);
      await page.waitForSelector(".sheet-columns");
      expect(await axeFindings(page)).toEqual([]);
      await shot(page, `import-columns-${width}-${scheme}`);
      await page.locator('[data-column="Size"] select').nth(1).selectOption("Fr");
      await tickAll(page);
      await page.click('[data-import="read"]');
      await page.waitForSelector('[data-import="found"]');
      await page.fill('[data-import="initials"]', "ip");
      expect(await axeFindings(page)).toEqual([]);
      await page.locator('[data-import="found"]').scrollIntoViewIfNeeded();
      await shot(page, `import-found-${width}-${scheme}`);
      await page.click('[data-import="agree"]');
      await page.waitForSelector('[data-import="agreed"]');
      expect(await axeFindings(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      await shot(page, `import-agreed-${width}-${scheme}`);
      await page.close();
    });
});
