import { element, escaped, px, type Figure } from "./plate/index.ts";

const MM_PER_CM = 10;
const SKIN_AT_MM = 46;
const MOST_TRUE_CM = 11;
const HEIGHT_MM = 25;

/**
 * A catheter where it leaves the skin, the outside part at true size (half size beyond 11 cm): laid beside the arm, a
 * moved line shows without a tape. Filled dot skin, thick line catheter; what lies under the skin is hatched over.
 */
export function skinRuler(sheet: {
  readonly id: string;
  readonly outsideCm: number;
  readonly outsideWords: string;
  readonly insideWords: string;
  readonly skinWords: string;
  readonly sentence: string;
}): Figure & { readonly widthMm: number; readonly trueSize: boolean } {
  const { id, outsideCm } = sheet;
  const trueSize = outsideCm <= MOST_TRUE_CM;
  const perCm = trueSize ? MM_PER_CM : MM_PER_CM / 2;
  const end = SKIN_AT_MM + outsideCm * perCm;
  const width = Math.max(end + 30, SKIN_AT_MM + 62);
  const [axis, ruler] = [9, 15.5];
  const line = (x1: number, y1: number, x2: number, y2: number, strokeMm: number, dash?: string) =>
    element("line", { x1, y1, x2, y2, stroke: "#000", "stroke-width": strokeMm, "stroke-dasharray": dash });
  const text = (x: number, y: number, words: string, size: number, anchor = "start", italic = false) =>
    element(
      "text",
      { x, y, "font-size": size, "text-anchor": anchor, "font-style": italic ? "italic" : undefined, fill: "#000" },
      escaped(words),
    );
  const whole = Math.ceil(outsideCm + 1e-9) + 1;
  const ticks = Array.from({ length: whole * 10 + 1 }, (_, at) => {
    const x = SKIN_AT_MM + (at / 10) * perCm;
    const long = at % 10 === 0;
    if (!trueSize && at % 5 !== 0) return "";
    const label = long ? text(x, ruler + 5.4, String(at / 10), 2.6, "middle") : "";
    return line(x, ruler, x, ruler + (long ? 2.6 : at % 5 === 0 ? 1.9 : 1.1), long ? 0.3 : 0.18) + label;
  });
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" class="skin-ruler" viewBox="0 0 ${px(width)} ${HEIGHT_MM}" width="${px(width)}mm" height="${HEIGHT_MM}mm" role="img" aria-label="${escaped(sheet.sentence)}"><defs><pattern id="${id}-skin" width="1.5" height="1.5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="1.5" stroke="#000" stroke-width="0.22"/></pattern></defs>${[
    element("path", {
      d: `M0 2 H${SKIN_AT_MM} C${SKIN_AT_MM - 1.6} 6 ${SKIN_AT_MM + 1.4} 12 ${SKIN_AT_MM} 17 H0 Z`,
      fill: `url(#${id}-skin)`,
      stroke: "none",
    }),
    element("path", {
      d: `M${SKIN_AT_MM} 1 C${SKIN_AT_MM - 1.6} 6 ${SKIN_AT_MM + 1.4} 12 ${SKIN_AT_MM} 18`,
      fill: "none",
      stroke: "#000",
      "stroke-width": 0.45,
    }),
    line(0, axis, SKIN_AT_MM, axis, 2.6),
    element("line", { x1: 0, y1: axis, x2: SKIN_AT_MM, y2: axis, stroke: "#fff", "stroke-width": 1.7 }),
    line(0, axis, SKIN_AT_MM, axis, 0.9, "2.2 1.4"),
    line(SKIN_AT_MM, axis, end, axis, 1.5),
    element("path", {
      d: `M${px(end)} ${axis - 2} h9 l3 1 h6 v2 h-6 l-3 1 h-9 Z`,
      fill: "#fff",
      stroke: "#000",
      "stroke-width": 0.4,
      "stroke-linejoin": "round",
    }),
    element("circle", { cx: SKIN_AT_MM, cy: axis, r: 1.5, fill: "#000" }),
    element("rect", { x: 6, y: 11.4, width: 30, height: 4.6, fill: "#fff" }),
    text(21, 14.9, sheet.insideWords, 3.3, "middle"),
    text(SKIN_AT_MM + 2.6, 5.2, sheet.skinWords, 3, "start", true),
    line(SKIN_AT_MM, ruler, SKIN_AT_MM + whole * perCm, ruler, 0.25),
    ...ticks,
    line(end, axis + 2.6, end, ruler + 3.4, 0.3, "0.8 0.6"),
    text(end + 2, 5.2, sheet.outsideWords, 3.6, "start"),
  ].join("")}</svg>`;
  return {
    svg,
    sentence: sheet.sentence,
    table: { columns: ["part", "length"], rows: [[sheet.outsideWords, sheet.insideWords]] },
    widthMm: width,
    trueSize,
  };
}
