import { spawnSync } from "node:child_process";

/** What poppler reads back from a paper it did not write. */
export const ran = (command: string, args: readonly string[]): Buffer => {
  const { stdout, error } = spawnSync(command, args, { maxBuffer: 2e8 });
  if (error) throw new Error(`${command} is missing: run \`sudo apt-get install poppler-utils\``);
  return stdout;
};
export const flat = (text: string): string => text.replaceAll(/[\u202f\s]+/g, " ").replaceAll("\u200b", "");

interface Word {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
  readonly text: string;
}

interface PageOfWords {
  readonly width: number;
  readonly height: number;
  readonly words: readonly Word[];
}

/** The first pages of a paper, each word with its box in points. */
export function pagesOf(file: string, last: number): readonly PageOfWords[] {
  const text = ran("pdftotext", ["-bbox", "-l", String(last), file, "-"]).toString();
  return text
    .split("<page ")
    .slice(1)
    .map((page): PageOfWords => {
      const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(page) ?? [];
      const found = page.matchAll(
        /<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">([^<]*)</g,
      );
      return {
        width: Number(width),
        height: Number(height),
        words: [...found].map(([, left, top, right, foot, said = ""]) => ({
          left: Number(left),
          top: Number(top),
          right: Number(right),
          foot: Number(foot),
          text: said,
        })),
      };
    });
}

// Libertinus Serif, as poppler boxes its words: ascent and descent together, in its own size
const BOX = 1.14;

/** The size of the smallest word of the four pages, in points. */
export const smallest = (file: string): number =>
  Math.min(...pagesOf(file, 4).flatMap(({ words }) => words.map(({ top, foot }) => (foot - top) / BOX)));

const INSIDE = (7 / 25.4) * 72;
/** A quarter of a box is air over and under its letters; two points may touch. */
const [AIR, TOUCH] = [0.25, 0.5];

/** Words that run into each other or out of the frame of their page. */
export const runningInto = (file: string): readonly string[] =>
  pagesOf(file, 4).flatMap(({ width, height, words }, at) => {
    const outside = words.filter(
      ({ left, right, top, foot }) => left < INSIDE || right > width - INSIDE || top < INSIDE || foot > height - INSIDE,
    );
    const cores = words.map((word) => {
      const air = AIR * (word.foot - word.top);
      return { ...word, top: word.top + air, foot: word.foot - air };
    });
    const over = cores.flatMap((one, place) =>
      cores
        .slice(place + 1)
        .filter(
          (other) =>
            Math.min(one.right, other.right) - Math.max(one.left, other.left) > TOUCH &&
            Math.min(one.foot, other.foot) - Math.max(one.top, other.top) > TOUCH,
        )
        .map((other) => `page ${at + 1}: ${one.text} over ${other.text}`),
    );
    return [...outside.map(({ text }) => `page ${at + 1}: ${text} outside`), ...over];
  });
