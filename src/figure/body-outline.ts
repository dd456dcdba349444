import type { Side } from "../core/arm/index.ts";
import { escaped, type Figure } from "./plate/index.ts";

/** The patient's own view of themselves: their right arm is on the right of the drawing, and the word stands on it. */
export function bodyOutline(side: Side, words: string): Figure {
  const sentence = `${words}, as the patient sees it: looking out, the right arm is on the right.`;
  const arm = (which: Side) => {
    const flip = which === "right" ? "" : 'transform="translate(200 0) scale(-1 1)"';
    const chosen = which === side;
    return `<g ${flip}><path class="${chosen ? "arm-chosen" : "contour"}" d="M128 52 C142 54 148 62 150 76 L160 128 C161 134 154 136 152 130 L136 84"/></g>`;
  };
  const at = side === "right" ? 172 : 28;
  const svg = `<svg class="plate body-outline" viewBox="0 0 200 176" role="img" aria-labelledby="body-t"><title id="body-t">${escaped(sentence)}</title>
<ellipse class="contour" cx="100" cy="24" rx="15" ry="18"/>
<path class="contour" d="M92 41 V48 C78 50 74 51 72 52 M108 41 V48 C122 50 126 51 128 52 M64 84 C68 108 68 130 66 156 M136 84 C132 108 132 130 134 156"/>
${arm("right")}${arm("left")}
<text class="side" x="${at === 172 ? 150 : 50}" y="172">${escaped(words)}</text><text class="region" x="100" y="100">patient's</text><text class="region" x="100" y="116">own view</text></svg>`;
  return { svg, sentence, table: { columns: ["arm"], rows: [[words]] } };
}
