import { thirdsOf } from "../core/arm/index.ts";
import type { Candidate } from "../core/line-plan/index.ts";
import type { Centimetre } from "../core/quantity/index.ts";
import { escaped, GREY_INK, px, textures, type Figure } from "./plate/index.ts";

/** What fits across an A4 page between its margins. */
const PAGE_MM = 180;
const OVERLAP_CM = 2;
const HEIGHT_MM = 34;

/**
 * The arm at true scale on paper, to lay beside the arm before it is cleaned. A long arm takes two strips that overlap
 * by two centimetres. Each strip carries a 10.0 cm bar: measure it before trusting the print.
 */
export function paperStrip(input: {
  readonly id: string;
  readonly armLengthCm: Centimetre;
  readonly armWords: string;
  readonly chosen: Candidate | undefined;
}): Figure {
  const pageCm = PAGE_MM / 10;
  const starts = input.armLengthCm <= pageCm ? [0] : [0, input.armLengthCm - pageCm];
  const strips = starts.map((start, index) =>
    strip(input, start, Math.min(input.armLengthCm, start + pageCm), `${input.id}-${index}`),
  );
  const split =
    starts.length > 1
      ? ` Two strips; lay the second so that the centimetres meet (at least ${OVERLAP_CM} cm overlap).`
      : "";
  const sentence = `${input.armWords}: paper strip at true scale, 0 at the medial epicondyle.${split} The bar is 10.0 cm.`;
  const marks = input.chosen
    ? [
        ["skin", input.chosen.skinExitCm.toFixed(1)],
        ["vein", input.chosen.veinEntryCm.toFixed(1)],
      ]
    : [];
  return { svg: strips.join(""), sentence, table: { columns: ["mark", "at, cm"], rows: marks } };
}

function strip(input: Parameters<typeof paperStrip>[0], fromCm: number, toCm: number, id: string): string {
  const thirds = thirdsOf(input.armLengthCm);
  const x = (cm: number) => (cm - fromCm) * 10;
  const clip = (cm: number) => Math.min(Math.max(cm, fromCm), toCm);
  const width = (toCm - fromCm) * 10;
  const paper = Math.max(width, 150); // a child's strip is shorter than its own check bar
  const rect = (from: number, to: number, more: string) => {
    const [a, b] = [clip(from), clip(to)];
    return b <= a ? "" : `<rect x="${px(x(a))}" y="8" width="${px(x(b) - x(a))}" height="7" ${more}/>`;
  };
  const inside = (cm: number) => cm >= fromCm && cm <= toCm;
  const ticks: string[] = [];
  for (let cm = Math.ceil(fromCm); cm <= toCm; cm += 1) {
    ticks.push(
      `<line x1="${px(x(cm))}" x2="${px(x(cm))}" y1="15" y2="${cm % 5 === 0 ? 19 : 17}" stroke="#000" stroke-width="0.25"/>`,
    );
    ticks.push(`<text x="${px(x(cm))}" y="22" font-size="2.8" text-anchor="middle">${cm}</text>`);
  }
  const word = (from: number, to: number, text: string) => {
    const [a, b] = [clip(from), clip(to)];
    return b - a < 2
      ? ""
      : `<text x="${px((x(a) + x(b)) / 2)}" y="6" font-size="3" font-style="italic" text-anchor="middle">${text}</text>`;
  };
  const mark = (cm: number, text: string, filled: boolean) =>
    inside(cm)
      ? `<circle cx="${px(x(cm))}" cy="15" r="1.7" fill="${filled ? "#000" : "#fff"}" stroke="#000" stroke-width="0.5" data-at-cm="${cm}"/><text x="${px(x(cm) + (filled ? -2.6 : 2.6))}" y="26" font-size="3.4" font-weight="700" text-anchor="${filled ? "end" : "start"}">${text} ${cm.toFixed(1)}</text>`
      : "";
  const L = input.armLengthCm;
  return `<svg class="paper-strip" xmlns="http://www.w3.org/2000/svg" width="${px(paper)}mm" height="${HEIGHT_MM}mm" viewBox="0 0 ${px(paper)} ${HEIGHT_MM}" role="img" aria-label="${escaped(input.armWords)} paper strip at true scale">${textures(id, GREY_INK, 0.28)}${[
    rect(0, thirds.middleFromCm, `fill="url(#${id}-hatch)"`),
    rect(thirds.preferredFromCm, thirds.upperFromCm, 'fill="#ddd"'),
    rect(thirds.upperFromCm, L, `fill="url(#${id}-stipple)"`),
    `<rect x="0" y="8" width="${px(width)}" height="7" fill="none" stroke="#000" stroke-width="0.3"/>`,
    word(0, thirds.middleFromCm, "lower third"),
    word(thirds.middleFromCm, thirds.preferredFromCm, "middle third"),
    word(thirds.preferredFromCm, thirds.upperFromCm, "preferred half"),
    word(thirds.upperFromCm, L, "upper third"),
    ...ticks,
    input.chosen ? mark(input.chosen.skinExitCm, "skin", true) + mark(input.chosen.veinEntryCm, "vein", false) : "",
    `<g class="check-bar"><rect x="0" y="29" width="100" height="1.6" fill="#000"/><text x="103" y="31" font-size="3">this bar is 10.0 cm</text></g>`,
    `<text x="${px(paper)}" y="31" font-size="3.4" font-weight="700" text-anchor="end">${escaped(input.armWords)}</text>`,
  ].join("")}</svg>`;
}
