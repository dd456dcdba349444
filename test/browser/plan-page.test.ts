import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { field, openPractice, type Page } from "./browser.ts";
import { keptHere } from "./kept-here.ts";
import { servedBrowser } from "./served-browser.ts";

const { browser, served } = await servedBrowser();

async function fresh(width = 1280, height = 900): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height } });
  return context.newPage();
}

/** Another tab's word comes when it comes. */
const PATIENT = { timeout: 10_000 };

const headline = (page: Page) => page.locator(".headline").innerText();

describe("a newcomer", () => {
  test("sees four doors, practice patients and what this is not", async () => {
    const page = await fresh();
    await page.goto(served.address);
    await page.locator(".doors").waitFor();
    expect(await page.locator(".door b").allInnerTexts()).toEqual(["Plan", "Record", "Look after", "Count"]);
    expect(await page.locator(".lead").innerText()).toContain("Not validated for clinical use");
    expect(await page.locator("[data-practice]").count()).toBe(12);
    expect(await page.locator(".home").innerText()).toContain("are not encrypted yet. Wipe a device that others use.");
    expect(await page.getByRole("button", { name: "Wipe this device" }).count()).toBe(1);
    await page.context().close();
  });

  test("plans a practice patient in one press", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    expect(await headline(page)).toMatch(/Mark the skin at/);
    expect(await page.locator(".arm-word").innerText()).toBe("RIGHT ARM");
    await page.locator(".columns .plain li", { hasText: "Lumens needed" }).first().waitFor();
    await page.context().close();
  });

  test("plans a patient of their own with the keyboard alone", async () => {
    const page = await fresh();
    await page.goto(served.address);
    await page.getByRole("button", { name: /^Plan/ }).focus();
    await page.keyboard.press("Enter");
    await page.locator(".entry").waitFor();
    const press = async (path: string, value: string) => {
      await page.locator(`input[data-path="${path}"][data-value="${value}"]`).focus();
      await page.keyboard.press("Space");
    };
    const typeIn = async (path: string, text: string) => {
      await field(page, path).focus();
      await page.keyboard.type(text);
    };
    await typeIn("patient.name", "MOOR, Test");
    await typeIn("patient.identifier", "X-1");
    await typeIn("patient.age.value", "61");
    await press("patient.age.unit", "years");
    await typeIn("patient.weight", "70,5");
    await press("patient.weightUnit", "kg");
    await typeIn("need.lumens", "1");
    await typeIn("need.flowMlPerHour", "0");
    await press("need.blood", "no");
    await typeIn("need.contrastMlPerSecond", "0");
    await press("arms.left.barsAsked", "yes");
    await typeIn("arms.left.armLengthCm", "21");
    await page.getByRole("button", { name: "+ a vein in the LEFT ARM" }).focus();
    await page.keyboard.press("Enter");
    await typeIn("arms.left.surveys.0.stations.0.atCm", "11");
    await typeIn("arms.left.surveys.0.stations.0.diameterMm", "4,4");
    await typeIn("arms.left.surveys.0.stations.0.depthMm", "10");
    await typeIn("arms.left.surveys.0.stations.1.atCm", "14");
    await typeIn("arms.left.surveys.0.stations.1.diameterMm", "4.8");
    await typeIn("arms.left.surveys.0.stations.1.depthMm", "12");
    expect(await headline(page)).toMatch(/Mark the skin at/);
    expect(await page.locator(".arm-word").innerText()).toBe("LEFT ARM");
    await page.context().close();
  });
});

describe("nothing typed is lost", () => {
  test("a text that is no number survives a reload, with its question", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await field(page, "patient.weight").fill("1.234,5");
    await page.locator(".entry .fault").first().waitFor();
    await keptHere(page, '"path":"patient.weight","text":"1.234,5"');
    await page.reload();
    await page.locator(".headline").waitFor();
    expect(await field(page, "patient.weight").inputValue()).toBe("1.234,5");
    expect(await page.locator(".entry .fault").first().innerText()).toMatch(/decimal comma or point/);
    expect(await headline(page)).toMatch(/weight is missing/);
    await page.context().close();
  });

  test("a closed tab and a new one show the same plan", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "tunnel");
    await field(page, "need.lumens").fill("2");
    const said = await headline(page);
    const address = page.url();
    await keptHere(page, '"path":"need.lumens","text":"2"');
    const again = await page.context().newPage();
    await page.close();
    await again.goto(address);
    await again.locator(".headline").waitFor();
    expect(await headline(again)).toBe(said);
    await again.context().close();
  });
});

describe("two patients and old readings", () => {
  test("a patient who could be taken for another is named beside the identifiers", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await keptHere(page, "P-20418");
    await page.goto(served.address);
    await page.getByRole("button", { name: /^Plan/ }).click();
    await field(page, "patient.name").fill("ROWAN, Enna");
    await field(page, "patient.identifier").fill("P-20481");
    expect(await page.locator(".alike").innerText()).toContain("ROWAN, Edda, no. P-20418");
    await page.context().close();
  });

  test("a reading older than the policy allows is greyed, and a clock in the past is asked about", async () => {
    const page = await fresh();
    await page.clock.setFixedTime(new Date("2026-11-20T09:00:00Z"));
    await openPractice(page, served.address, "plain");
    expect(await page.locator(".again").count()).toBe(0);
    await keptHere(page, "P-20418");
    await page.clock.setFixedTime(new Date("2026-11-21T10:00:00Z"));
    await page.reload();
    await page.locator(".headline").waitFor();
    expect(await page.locator(".again").count()).toBe(4);
    expect(await field(page, "arms.right.surveys.0.stations.0.diameterMm").inputValue()).toBe("2.9");
    await page.clock.setFixedTime(new Date("2019-01-01T00:00:00Z"));
    await page.reload();
    expect(await page.locator(".trouble").innerText()).toContain("clock is before the last entry");
    await page.context().close();
  });

  test("a moved entry is followed, and a stop is planned against only by two people", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await page.getByRole("button", { name: "5 mm to the elbow" }).click();
    expect(await page.locator(".vein-mark").getAttribute("data-at-cm")).toBe("10.5");
    await page.goto(served.address);
    await page.locator('[data-practice="barred-arm"]').click();
    await page.locator(".against summary").click();
    await page.getByRole("button", { name: "Give a reason and two names" }).click();
    await field(page, "overrides.0.reason").fill("only vein left");
    await field(page, "overrides.0.names.0").fill("A. One");
    expect(await page.locator(".reasons").innerText()).not.toContain("and planned against");
    await field(page, "overrides.0.names.1").fill("B. Two");
    expect(await page.locator(".reasons").innerText()).toContain("and planned against");
    await page.context().close();
  });
});

describe("behind the answer", () => {
  test("a pressed number shows its sum", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await page.locator(".headline .number").click();
    const sums = await page.locator(".sums dl").innerText();
    // by hand: 1.2 cm deep at 60 degrees is 0.69 cm back from 11.0
    expect(sums).toContain("vein entry 11.0 − depth 1.20 / tan 60° = 10.31");
    expect(sums).toMatch(/Cut at/);
    await page.context().close();
  });

  test("opening a second patient closes the first, by name", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await page.getByRole("link", { name: "All doors" }).click();
    await page.locator('[data-practice="tunnel"]').click();
    expect(await page.locator(".closed").innerText()).toContain("ROWAN, Edda, no. P-20418");
    expect(await page.locator(".identity").innerText()).toContain("EIBE, Konrad");
    await page.context().close();
  });
});

describe("two tapes", () => {
  test("the first stays hidden until the second is typed; then both and their difference show", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "tunnel");
    await field(page, "length.sides.right.secondTapeCm").fill("");
    await field(page, "length.sides.right.surfaceTapeCm").fill("41");
    expect(await field(page, "length.sides.right.surfaceTapeCm").getAttribute("type")).toBe("password");
    expect(await page.locator(".entry").innerText()).not.toContain("differ by");
    await field(page, "length.sides.right.secondTapeCm").fill("45,5");
    expect(await field(page, "length.sides.right.surfaceTapeCm").getAttribute("type")).toBe("text");
    expect(await page.locator(".entry").innerText()).toContain("they differ by 4.5");
    await page.context().close();
  });
});

describe("the shelf and the policy", () => {
  test("a shelf of one's own replaces the practice shelf", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await page.locator(".shelf summary").click();
    await page.getByRole("button", { name: "+ a catheter of your own" }).click();
    await field(page, "shelf.0.name").fill("ward 4 single");
    await field(page, "shelf.0.nominalFrench").fill("4");
    await field(page, "shelf.0.lumens").fill("1");
    await field(page, "shelf.0.lengthCm").fill("60");
    expect(await headline(page)).toContain("ward 4 single");
    expect(await page.locator(".reasons").innerText()).toContain("True width not on record");
    await page.context().close();
  });

  test("a changed limit is named, dated, exported and taken back; an old plan keeps its own", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "coin-flip");
    const address = page.url();
    await keptHere(page, '"type":"PlanStarted"');
    await page.goto(`${served.address}/#/policy`);
    await page.getByPlaceholder("name and role").fill("Test lead");
    const limit = page.getByLabel("The catheter-to-vein ratio the plan is held to");
    await limit.fill("0,30");
    await limit.blur();
    expect(await page.locator(".policy table").innerText()).toContain("Test lead");
    const exported = await page.getByRole("link", { name: "Export as a file" }).getAttribute("href");
    expect(decodeURIComponent(exported ?? "")).toContain('"value": 0.3');
    await keptHere(page, '"value":0.3', "policy");
    await page.goto(address);
    await page.locator(".renew").waitFor();
    expect(await page.locator(".reasons").innerText()).toContain("within 45");
    await page.getByRole("button", { name: "Use today's policy" }).click();
    expect(await page.locator(".panel").innerText()).not.toContain("within 45");
    await page.context().close();
  });
});

describe("what another hand did", () => {
  test("a policy file that does not fit is refused whole, in words, and the page lives on", async () => {
    const page = await fresh();
    await page.goto(`${served.address}/#/policy`);
    const take = async (table: unknown) => {
      await page.locator('input[accept="application/json"]').setInputFiles({
        name: "policy.json",
        mimeType: "application/json",
        buffer: Buffer.from(JSON.stringify({ table })),
      });
      return page.locator("output").innerText();
    };
    const owned = { howKnown: "local", owner: "x", date: "2026-01-01" };
    expect(await take({ "needle.angles": { ...owned, value: [150] } })).toContain("needle.angles");
    await take({
      "ratio.limit": { ...owned, value: 0.4, howKnown: { a: 1 } },
      "vein.floor-sd": { ...owned, value: 0.1 },
    });
    await expect.poll(() => page.locator("output").innerText()).toContain("fit: ratio.limit.");
    await take({ constructor: null });
    await expect.poll(() => page.locator("output").innerText()).toContain("constructor");
    await take({ "vein.floor-sd": { ...owned, value: 0.1 } });
    await expect.poll(() => page.locator("output").innerText()).toContain("1 row");
    await openPractice(page, served.address, "plain");
    expect(await headline(page)).toMatch(/Mark the skin at/);
    await page.context().close();
  });

  test("two tabs show one plan, and a wipe in one is a wipe in both", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await keptHere(page, "P-20418");
    const other = await page.context().newPage();
    await other.goto(page.url());
    await other.locator(".headline").waitFor();
    await field(other, "need.lumens").fill("2");
    await expect.poll(() => field(page, "need.lumens").inputValue(), PATIENT).toBe("2");
    await other.goto(served.address);
    await other.getByRole("button", { name: "Wipe this device" }).click();
    await other.getByRole("button", { name: "Wipe now" }).click();
    await expect.poll(() => page.locator("body").innerText(), PATIENT).toContain("This plan is not on this device");
    await page.context().close();
  });

  test("a store that does not open says so, and nothing pretends to be wiped", async () => {
    const page = await fresh();
    await page.addInitScript("IDBFactory.prototype.open = () => { throw new Error('closed'); }");
    await page.goto(served.address);
    await page.locator(".doors").waitFor();
    expect(await page.locator(".trouble").innerText()).toContain("keeps nothing");
    await page.getByRole("button", { name: "Wipe this device" }).click();
    await page.getByRole("button", { name: "Wipe now" }).click();
    await page.locator(".trouble", { hasText: "Nothing was wiped" }).waitFor();
    await page.context().close();
  });
});

describe("with the network off", () => {
  test("the page opens, plans and keeps, after it was loaded once", async () => {
    const page = await fresh();
    await page.goto(served.address);
    await page.locator(".doors").waitFor();
    await page.evaluate("navigator.serviceWorker.ready");
    await page.reload();
    await page.locator(".doors").waitFor();
    await page.context().setOffline(true);
    await page.reload();
    await page.locator('[data-practice="plain"]').click();
    await page.locator(".headline").waitFor();
    const said = await headline(page);
    await keptHere(page, "P-20418");
    await page.reload();
    await page.locator(".headline").waitFor();
    expect(await headline(page)).toBe(said);
    await page.context().close();
  });
});

describe("the plate", () => {
  test("draws what was computed: coordinates read back from the SVG give the computed millimetres", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    const read = await page.evaluate(() => {
      const svg = document.querySelector(".arm-strip") as SVGElement;
      const number = (element: Element | null, name: string) => Number(element?.getAttribute(name));
      const skin = svg.querySelector(".skin-mark");
      const vein = svg.querySelector(".vein-mark");
      return {
        perCm: number(svg, "data-per-cm"),
        origin: number(svg, "data-origin"),
        perMm: number(svg, "data-per-mm"),
        top: number(svg, "data-depth-origin"),
        skinX: number(skin, "cx"),
        skinCm: number(skin, "data-at-cm"),
        veinX: number(vein, "cx"),
        veinY: number(vein, "cy"),
        veinCm: number(vein, "data-at-cm"),
        depthMm: number(vein, "data-depth-mm"),
      };
    });
    expect((read.skinX - read.origin) / read.perCm).toBeCloseTo(read.skinCm, 2);
    expect((read.veinX - read.origin) / read.perCm).toBeCloseTo(read.veinCm, 2);
    expect((read.veinY - read.top) / read.perMm).toBeCloseTo(read.depthMm, 1);
    await page.context().close();
  });

  test("no two labels touch, on any practice patient, at any width", async () => {
    for (const width of [360, 820, 1280, 1600]) {
      const page = await fresh(width);
      for (const id of ["plain", "tunnel", "barred-arm", "no-vein-above", "newborn", "tourniquet"]) {
        await openPractice(page, served.address, id);
        const touching = await page.evaluate(() => {
          const boxes = [...document.querySelectorAll(".arm-strip text")].map((text) => ({
            word: text.textContent,
            box: text.getBoundingClientRect(),
          }));
          return boxes.flatMap((a, index) =>
            boxes
              .slice(index + 1)
              // a line box has air above and below its letters: two labels touch when their middles overlap
              .filter(
                (b) =>
                  a.box.left < b.box.right - 1 &&
                  b.box.left < a.box.right - 1 &&
                  a.box.top + 4 < b.box.bottom - 4 &&
                  b.box.top + 4 < a.box.bottom - 4,
              )
              .map((b) => `${a.word} / ${b.word}`),
          );
        });
        expect(touching, `${id} at ${width} px`).toEqual([]);
        expect(await page.locator(".arm-strip text").allTextContents(), `${id} at ${width} px`).toContain(
          "preferred half",
        );
      }
      await page.context().close();
    }
  });

  test("a press on the vein moves the entry there", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await page.locator('.arm-strip [data-entry-cm="9"]').click();
    expect(Number(await page.locator(".vein-mark").getAttribute("data-at-cm"))).toBe(9);
    await page.getByRole("button", { name: "Let the plan choose again" }).click();
    expect(Number(await page.locator(".vein-mark").getAttribute("data-at-cm"))).toBe(11);
    await page.context().close();
  });

  test("the paper's 10.0 cm bar is 10.0 cm in the pixels of a grey print", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await page.emulateMedia({ media: "print" });
    const bar = page.locator(".paper-strip .check-bar rect").first();
    const box = await bar.boundingBox();
    // 96 CSS px to the inch is the print scale of the page
    expect(((box?.width ?? 0) / 96) * 2.54).toBeCloseTo(10, 1);
    await page.context().close();
  });

  test("the paper is a plan page and a strip page, each with both identifiers", async () => {
    const page = await fresh();
    await openPractice(page, served.address, "plain");
    await page.locator(".columns .plain li", { hasText: "Age" }).first().waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true });
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g) ?? [];
    expect(pages).toHaveLength(2);
    const file = join(mkdtempSync(join(tmpdir(), "veinwright-print-")), "plan.pdf");
    writeFileSync(file, pdf);
    for (const number of ["1", "2"]) {
      const text = spawnSync("pdftotext", ["-f", number, "-l", number, file, "-"], {
        encoding: "utf8",
      }).stdout.replaceAll(/\s+/g, " ");
      expect(text, `page ${number}`).toContain("P-20418");
      expect(text, `page ${number}`).toContain("RIGHT ARM");
      expect(text, `page ${number}`).toContain("Not validated for clinical use");
      expect(text, `page ${number}`).toMatch(/Policy [0-9a-f]{8}/);
      expect(text, `page ${number}`).toContain(`page ${number} of 2`);
    }
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".strip-page h2").innerText()).toContain("ROWAN, Edda, P-20418. RIGHT ARM");
    await page.context().close();
  });
});

describe("on a phone in gloves", () => {
  test("nothing scrolls sideways at 360 px and every target is 44 px", async () => {
    const page = await fresh(360, 760);
    await openPractice(page, served.address, "plain");
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("button, .choice label, .typed input, summary, .tick")]
        .map((element) => ({ what: element.textContent, box: element.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0 && box.height < 43.5)
        .map(({ what, box }) => `${what} ${box.height}`),
    );
    expect(small).toEqual([]);
    await page.context().close();
  });
});

describe("from a stick", () => {
  test("one file, no network and no server: plans, keeps and draws", async () => {
    const context = await browser.newContext({ offline: true });
    const page = await context.newPage();
    await page.goto(`file://${process.cwd()}/dist/stick/veinwright.html`);
    await page.locator('[data-practice="plain"]').click();
    await page.locator(".headline").waitFor();
    expect(await headline(page)).toMatch(/Mark the skin at/);
    await page.locator(".columns .plain li", { hasText: "Lumens needed" }).first().waitFor();
    await keptHere(page, "P-20418");
    await page.goto(`file://${process.cwd()}/dist/stick/veinwright.html`);
    await page.getByRole("button", { name: /ROWAN, Edda · no. P-20418/ }).click();
    expect(await headline(page)).toMatch(/Mark the skin at/);
    const printed = await page.pdf({ preferCSSPageSize: true });
    expect(printed.length).toBeGreaterThan(10_000);
    await context.close();
  });
});
