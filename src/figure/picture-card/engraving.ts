import { element, escaped, type Figure } from "../plate/index.ts";

/** Size of one picture of the card, in units of its own. */
export const PICTURE_WIDTH = 220;
export const PICTURE_HEIGHT = 150;

/** Lines as an engraver cuts them: a contour, a thin inner line, and three densities of hatching. No colour, no grey. */
export const contour = (d: string, width = 1.6): string =>
  element("path", { d, fill: "none", stroke: "#000", "stroke-width": width, "stroke-linecap": "round" });
export const solid = (d: string, width = 1.6): string =>
  element("path", { d, fill: "#fff", stroke: "#000", "stroke-width": width, "stroke-linejoin": "round" });
export const hatched = (id: string, d: string, kind: "light" | "dense" | "cross" = "light"): string =>
  element("path", { d, fill: `url(#${id}-${kind})`, stroke: "none" });
export const filled = (d: string): string => element("path", { d, fill: "#000", stroke: "none" });

/** A tube: a thick line with a white core, so that what flows in it can be drawn. */
export const tube = (d: string, width = 10): string =>
  element("path", { d, fill: "none", stroke: "#000", "stroke-width": width, "stroke-linecap": "round" }) +
  element("path", { d, fill: "none", stroke: "#fff", "stroke-width": width - 2.6, "stroke-linecap": "round" });

const pattern = (id: string, gap: number, stroke: number, angle: number, cross = false): string =>
  `<pattern id="${id}" width="${gap}" height="${gap}" patternUnits="userSpaceOnUse" patternTransform="rotate(${angle})"><line x1="0" y1="0" x2="0" y2="${gap}" stroke="#000" stroke-width="${stroke}"/>${cross ? `<line x1="0" y1="0" x2="${gap}" y2="0" stroke="#000" stroke-width="${stroke}"/>` : ""}</pattern>`;

/** One picture of the card under its sentence. */
export function picture(id: string, sentence: string, ...parts: readonly string[]): Figure {
  const defs = `<defs>${pattern(`${id}-light`, 3.4, 0.9, 52)}${pattern(`${id}-dense`, 2.3, 1, 52)}${pattern(`${id}-cross`, 2.6, 1.1, 45, true)}</defs>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" class="picture" viewBox="0 0 ${PICTURE_WIDTH} ${PICTURE_HEIGHT}" role="img" aria-label="${escaped(sentence)}">${defs}${parts.join("")}</svg>`;
  return { svg, sentence, table: { columns: ["picture"], rows: [[sentence]] } };
}
