import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { practicePatients } from "../../src/practice/index.ts";
import { commandDesk } from "../command-desk.ts";

const folder = mkdtempSync(join(tmpdir(), "veinwright-paper-"));
const DOTS_PER_INCH = 200;

function pdfOf(id: string): string {
  const patient = practicePatients.find((one) => one.id === id);
  const caseFile = join(folder, `${id}.json`);
  const pdfFile = join(folder, `${id}.pdf`);
  writeFileSync(caseFile, JSON.stringify(patient?.planCase));
  const { status, stderr } = spawnSync("npx", ["--no", "veinwright", "plan", caseFile, "--pdf", pdfFile], {
    encoding: "utf8",
  });
  if (status === null || status > 3) throw new Error(stderr);
  return pdfFile;
}

/** A grey page as rows of bytes, 0 black to 255 white, straight from the PDF reader. */
function greyPage(
  pdfFile: string,
  page: number,
): { readonly width: number; readonly height: number; readonly at: (x: number, y: number) => number } {
  const { stdout, error } = spawnSync(
    "pdftoppm",
    ["-gray", "-r", String(DOTS_PER_INCH), "-f", String(page), "-l", String(page), pdfFile],
    { maxBuffer: 1e8 },
  );
  if (error) throw new Error("pdftoppm is missing: run `sudo apt-get install poppler-utils`");
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(stdout.subarray(0, 40).toString("latin1"));
  if (!head) throw new Error("pdftoppm gave no grey picture");
  const [width, height, from] = [Number(head[1]), Number(head[2]), head[0].length];
  return { width, height, at: (x, y) => stdout[from + y * width + x] as number };
}

const textOf = (pdfFile: string, page: number): string =>
  spawnSync("pdftotext", ["-f", String(page), "-l", String(page), pdfFile, "-"], { encoding: "utf8" }).stdout;

describe("the bedside plan as PDF", () => {
  const file = pdfOf("plain");

  test("is tagged, and says it is for screen readers too", () => {
    const raw = readFileSync(file).toString("latin1");
    expect(raw).toContain("/StructTreeRoot");
    expect(raw).toContain("/MarkInfo");
    expect(raw).toMatch(/pdfuaid:part/);
  });

  test("carries both identifiers, the side in words and the page number on each of its two pages", () => {
    for (const page of [1, 2]) {
      const text = textOf(file, page);
      expect(text, `page ${page}`).toContain("ROWAN, Edda, no. P-20418");
      expect(text, `page ${page}`).toContain("RIGHT ARM");
      expect(text, `page ${page}`).toContain(`page ${page} of 2`);
      expect(text, `page ${page}`).toContain("Not validated for clinical use");
    }
  });

  test("the 10.0 cm bar is 10.0 cm in the pixels of a grey print", () => {
    const page = greyPage(file, 2);
    let longest = 0;
    for (let y = 0; y < page.height; y += 1) {
      // the bar is a solid band: black here, five rows further down, and longer than any word
      let run = 0;
      for (let x = 0; x < page.width; x += 1) {
        run = page.at(x, y) < 64 && page.at(x, Math.min(y + 5, page.height - 1)) < 64 ? run + 1 : 0;
        if (run > longest) longest = run;
      }
    }
    const centimetres = (longest / DOTS_PER_INCH) * 2.54;
    expect(centimetres).toBeGreaterThan(9.97);
    expect(centimetres).toBeLessThan(10.03);
  });

  test("the thirds are told apart without colour: hatched, clear, grey and stippled areas differ in ink", () => {
    const page = greyPage(file, 2);
    // the first strip's band of bands: look for the row with the most ink changes and sample the arm's four parts
    const left = (15 / 25.4) * DOTS_PER_INCH;
    const perCm = DOTS_PER_INCH / 2.54;
    const shares = (y: number) =>
      [3, 7.7, 11.5, 15].map((cm) => {
        let ink = 0;
        for (let dy = 0; dy < 30; dy += 1)
          for (let dx = -35; dx <= 35; dx += 1)
            ink += (255 - page.at(Math.round(left + cm * perCm + dx), y + dy)) / 255;
        return ink / (30 * 71);
      });
    let best: number[] = [];
    for (let y = 200; y < page.height / 2; y += 4) {
      const now = shares(y);
      const clear = now[1] as number;
      if (
        clear < 0.01 &&
        Math.min(now[0] as number, now[2] as number, now[3] as number) >
          Math.min(...(best.length ? [best[0] as number, best[2] as number, best[3] as number] : [0]))
      )
        best = now;
    }
    expect(best.length).toBe(4);
    for (const index of [0, 2, 3]) expect(best[index], `part ${index}`).toBeGreaterThan(0.05);
  });

  test("the same case and minute give the same bytes, another minute does not", async () => {
    // the minute is printed on the sheet, so it is given here: two runs by the machine's clock may straddle one
    const atMinute = async (minute: string): Promise<Buffer> => {
      const caseFile = join(folder, "tunnel.json");
      const patient = practicePatients.find((one) => one.id === "tunnel");
      writeFileSync(caseFile, JSON.stringify(patient?.planCase));
      let written: Uint8Array = new Uint8Array();
      const write = (_: string, bytes: Uint8Array) => (written = bytes);
      await runCommandLine(
        ["plan", caseFile, "--pdf", "sheet.pdf"],
        commandDesk(undefined, { write, now: () => minute }),
      );
      return Buffer.from(written);
    };
    const one = await atMinute("3 Mar 2026, 10:15");
    expect(one.subarray(0, 5).toString()).toBe("%PDF-");
    expect((await atMinute("3 Mar 2026, 10:15")).equals(one)).toBe(true);
    expect((await atMinute("3 Mar 2026, 10:16")).equals(one)).toBe(false);
  });

  test("a plan that nothing fits still prints, with the rule and the offers", () => {
    const text = textOf(pdfOf("nothing-fits"), 1);
    expect(text).toContain("Nothing fits");
    expect(text).toContain("Consider another kind of device");
  });
});
