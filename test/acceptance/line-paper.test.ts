import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { readLineBlock } from "../../src/contract/index.ts";
import type { CivilDate } from "../../src/core/calendar/index.ts";
import { linePaperPdf } from "../../src/paper/index.ts";
import {
  handoverSheets,
  LINE_PAPER_NAMES,
  lineFactsOf,
  linePaper,
  recallSheets,
  type LinePaperName,
} from "../../src/paper/line/index.ts";
import { defaultPolicy } from "../../src/policy/index.ts";
import { NOW, practiceEvents, practiceLine, practiceLines } from "../practice-lines.ts";

const folder = mkdtempSync(join(tmpdir(), "veinwright-line-paper-"));
const DOTS_PER_INCH = 200;
const PER_CM = DOTS_PER_INCH / 2.54;

async function pdfOf(paper: LinePaperName, id: string): Promise<string> {
  const file = join(folder, `${paper}-${id}.pdf`.replaceAll(" ", "-"));
  const sheet = linePaper(paper, { ...practiceLine(id), issue: 2, printedAt: NOW, policy: defaultPolicy });
  writeFileSync(file, await linePaperPdf([sheet]));
  return file;
}

const ran = (command: string, args: readonly string[]): Buffer => {
  const { stdout, error } = spawnSync(command, args, { maxBuffer: 2e8 });
  if (error) throw new Error(`${command} is missing: run \`sudo apt-get install poppler-utils\``);
  return stdout;
};
const textOf = (file: string): string =>
  ran("pdftotext", ["-raw", file, "-"]).toString("utf8").replaceAll("\u202f", " ").replaceAll("\u202f", " ");
const pagesOf = (file: string): number => Number(/Pages:\s+(\d+)/.exec(ran("pdfinfo", [file]).toString())?.[1]);

/** A page as coloured pixels, so that colour itself can be looked for. */
function pixelsOf(file: string): { readonly width: number; readonly height: number; readonly data: Buffer } {
  const data = ran("pdftoppm", ["-r", String(DOTS_PER_INCH), "-f", "1", "-l", "1", file]);
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(data.subarray(0, 40).toString("latin1"));
  if (!head) throw new Error("pdftoppm gave no picture");
  return { width: Number(head[1]), height: Number(head[2]), data: data.subarray(head[0].length) };
}

const files = new Map<LinePaperName, string>();
const WHO: Partial<Readonly<Record<LinePaperName, string>>> = {
  "film slip": "falk",
  "culture card": "eibe",
  "removal slip": "weide",
};
beforeAll(async () => {
  for (const paper of LINE_PAPER_NAMES) files.set(paper, await pdfOf(paper, WHO[paper] ?? "rowan"));
});
const fileOf = (paper: LinePaperName): string => files.get(paper) as string;

describe.each(LINE_PAPER_NAMES)("the %s as PDF", (paper) => {
  test("is one tagged page that is also for screen readers", () => {
    const raw = readFileSync(fileOf(paper)).toString("latin1");
    expect(raw).toContain("/StructTreeRoot");
    expect(raw).toContain("/MarkInfo");
    expect(raw).toMatch(/pdfuaid:part/);
    expect(pagesOf(fileOf(paper))).toBe(1);
  });

  test("its text holds both identifiers, the arm in words, the hour and that it is a copy", () => {
    const text = textOf(fileOf(paper)).replaceAll(/\s+/g, " ");
    const { patient } = practiceLine(WHO[paper] ?? "rowan");
    expect(text).toContain(patient?.name);
    expect(text).toContain(`no. ${patient?.number}`);
    expect(text).toMatch(/RIGHT ARM|LEFT ARM|BOTH ARMS/);
    expect(text).toContain("Printed Thu 26 Nov 2026, 11:02.");
    expect(text).toContain(`Policy ${defaultPolicy.version}`);
    expect(text).toContain("check the screen for a newer one");
    expect(text).toContain("page 1 of 1");
    expect(text).toContain("Practice, invented.");
  });

  test("has no colour, and ink on it", () => {
    const { data } = pixelsOf(fileOf(paper));
    let [coloured, dark] = [0, 0];
    for (let at = 0; at < data.length; at += 3) {
      const [r, g, b] = [data[at] as number, data[at + 1] as number, data[at + 2] as number];
      if (Math.abs(r - g) > 2 || Math.abs(g - b) > 2) coloured += 1;
      if (r < 64) dark += 1;
    }
    expect(coloured).toBe(0);
    expect(dark).toBeGreaterThan(20_000);
  });
});

describe("what is printed", () => {
  test("the film slip's three numbers stand in the text", () => {
    const text = textOf(fileOf("film slip")).replaceAll(/\s+/g, " ");
    // the reader drops a space as narrow as the one between a number and its unit
    expect(text).toMatch(
      /Withdraw by 2\.5 ?cm\. Outside length will be 3\.0 ?cm\. Inside will be 41\.0 ?cm\. Read back\./,
    );
    expect(text).toMatch(/2\.5 ?cm 3\.0 ?cm 41\.0 ?cm/);
  });

  test("the card's letters, taken from the printed page, give the line back", () => {
    const printed =
      textOf(fileOf("patient card")).match(/[A-HJ-NP-Z2-9]{4} [A-HJ-NP-Z2-9]{4} [A-HJ-NP-Z2-9]{4}/g) ?? [];
    const lines = [...new Set(printed)];
    // two copies of the card stand on the page
    expect(printed).toHaveLength(lines.length * 2);
    const reading = readLineBlock(lines.join("\n"));
    if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
    const sent = lineFactsOf(practiceLine("rowan").line, 2);
    expect(reading.facts.issue).toBe(2);
    expect(reading.facts.lotNumber).toEqual({ value: "LX4417", from: "imported" });
    for (const key of ["arm", "vein", "french", "insideCm", "outsideCm", "tipPlace", "placedOn"] as const) {
      expect(reading.facts[key], key).toEqual({ ...sent[key], from: "imported" });
    }
  });

  test("the ruler on the bed sign is true to size: 4 cm of ruler are 4.00 cm of pixels", () => {
    const { width, height, data } = pixelsOf(fileOf("bed sign"));
    const runs: number[] = [];
    for (let y = Math.round(height * 0.3); y < height * 0.9; y += 1) {
      let run = 0;
      for (let x = 0; x <= width; x += 1) {
        if (x < width && (data[(y * width + x) * 3] as number) < 128) run += 1;
        else {
          if (run > 0) runs.push(run / PER_CM);
          run = 0;
        }
      }
    }
    expect(runs.some((cm) => Math.abs(cm - 4) < 0.03)).toBe(true);
  });

  test("the arm of the picture card is told without colour: hatched where the line is, and in words", () => {
    const { width, data } = pixelsOf(fileOf("picture card"));
    // the first picture: left half of the page, under the title; the patient's right arm stands on its right
    const ink = (fromCm: number, toCm: number): number => {
      let dark = 0;
      for (let y = Math.round(6.6 * PER_CM); y < 9.2 * PER_CM; y += 1)
        for (let x = Math.round(fromCm * PER_CM); x < toCm * PER_CM; x += 1)
          if ((data[(y * width + x) * 3] as number) < 128) dark += 1;
      return dark;
    };
    const [leftArm, rightArm] = [ink(3, 5), ink(6.6, 8.6)];
    expect(rightArm).toBeGreaterThan(leftArm * 1.6);
    expect(textOf(fileOf("picture card"))).toContain("1. RIGHT ARM");
  });

  test("every paper of every practice line is one page", async () => {
    for (const one of practiceLines()) {
      const sheets = LINE_PAPER_NAMES.map((paper) =>
        linePaper(paper, { ...one, issue: 999, printedAt: NOW, policy: defaultPolicy }),
      );
      const file = join(folder, "all.pdf");
      writeFileSync(file, await linePaperPdf(sheets));
      expect(pagesOf(file), one.line.subject).toBe(sheets.length);
    }
  });

  test("lists count their own pages", async () => {
    const printing = { policy: defaultPolicy, printedAt: NOW };
    const many = Array.from({ length: 25 }, () => practiceLine("solberg"));
    const sheets = [
      ...handoverSheets("ward 1 nurse", many, printing),
      ...recallSheets("LX4417", practiceLines(), printing),
    ];
    const file = join(folder, "lists.pdf");
    writeFileSync(file, await linePaperPdf(sheets));
    expect(pagesOf(file)).toBe(4);
    expect(textOf(file)).toContain("page 3 of 3");
  });

  test("the same sheet gives the same bytes", async () => {
    expect(readFileSync(await pdfOf("bed sign", "rowan")).equals(readFileSync(fileOf("bed sign")))).toBe(true);
  });
});

describe("from the command line", () => {
  const text = JSON.stringify(practiceEvents);
  const written = new Map<string, Uint8Array>();
  const run = (words: string[], inputs: Readonly<Record<string, string>> = { "LINE.json": text }) =>
    runCommandLine(words, {
      read: (name) => {
        const found = inputs[name];
        if (found === undefined) throw new Error("no such file");
        return found;
      },
      write: (name, bytes) => written.set(name, bytes),
      now: () => "now",
      today: () => "2026-11-26" as CivilDate,
      moment: () => NOW,
    });

  test("prints each paper of a line, as words and as PDF", async () => {
    for (const paper of LINE_PAPER_NAMES) {
      const name = paper.replaceAll(" ", "-");
      const answer = await run(["paper", name, "LINE.json", "--line", "practice-rowan", "--pdf", `${name}.pdf`]);
      expect(answer.exit, paper).toBe(0);
      expect(answer.output).toContain("ROWAN, Edda");
      expect(
        Buffer.from(written.get(`${name}.pdf`) ?? [])
          .subarray(0, 5)
          .toString(),
      ).toBe("%PDF-");
    }
    expect((await run(["paper", "handover", "LINE.json"])).output).toContain("Lines of J. Tamm");
  });

  test("a form to be filled in needs no line", async () => {
    const answer = await run(["paper", "record-form", "-"], { "-": "[]" });
    expect(answer).toMatchObject({ exit: 0 });
    expect(answer.output).toContain("no. ____");
  });

  test("the arm veins of a person without a line are kept as well", async () => {
    const kiefer = practiceEvents.filter(({ subject }) => subject === "patient:practice-kiefer");
    const answer = await run(["paper", "arm-protection-note", "-"], { "-": JSON.stringify(kiefer) });
    expect(answer.exit).toBe(0);
    expect(answer.output).toContain("KIEFER, Arvid, no. P-44102");
    expect(answer.output).toContain("LEFT ARM is barred: fistula planned.");
  });

  test("writes a card's letters and reads them back; a wrong letter is named by its line", async () => {
    const card = await run(["card", "LINE.json", "--line", "practice-rowan"]);
    expect(card.output.split("\n")).toHaveLength(5);
    const back = await run(["card", "--read", "BLOCK.txt"], { "BLOCK.txt": card.output });
    expect(back.exit).toBe(0);
    expect(back.output).toContain("Arm: RIGHT ARM");
    expect(back.output).toContain("Lot: LX4417");
    const lines = card.output.split("\n");
    const third = lines[2] as string;
    lines[2] = third.slice(0, 5) + (third.charAt(5) === "A" ? "B" : "A") + third.slice(6);
    const wrong = await run(["card", "--read", "BLOCK.txt"], { "BLOCK.txt": lines.join("\n") });
    expect(wrong.exit).toBe(65);
    expect(wrong.output).toContain("line 3 does not fit its check letters");
  });

  test("says what to do when it cannot print", async () => {
    expect(await run(["paper", "poster", "LINE.json"])).toMatchObject({ exit: 64 });
    expect((await run(["paper", "bed-sign", "LINE.json"])).output).toContain("Pick one with --line");
    expect((await run(["paper", "recall-list", "LINE.json"])).output).toContain("No lot of this file was called back");
    expect((await run(["paper", "bed-sign", "LINE.json", "--read"])).exit).toBe(64);
    expect((await run(["due", "LINE.json", "--line", "a"])).exit).toBe(64);
    expect((await run(["card", "LINE.json"], { "LINE.json": "{" })).exit).toBe(65);
  });
});
