import type { Ink } from "./ink.ts";
import { element, escaped } from "./markup.ts";

/** How one piece of text is set on a plate. Serif italic names a region, the plain face is for what is read in a hurry. */
export interface Lettering {
  readonly size: number;
  readonly face?: "plain" | "serif";
  readonly weight?: 400 | 700;
  readonly italic?: boolean;
  readonly anchor?: "start" | "middle" | "end";
  readonly colour?: string;
  /** Width of a rim in the colour of the paper, so that a line behind does not cut the word. */
  readonly rim?: number;
  readonly spacing?: number;
  readonly part?: string;
}

export function lettered(ink: Ink, x: number, y: number, text: string, how: Lettering): string {
  return element(
    "text",
    {
      x,
      y,
      "data-part": how.part,
      "font-family": how.face === "serif" ? ink.serif : ink.plain,
      "font-size": how.size,
      "font-weight": how.weight === 700 ? 700 : undefined,
      "font-style": how.italic ? "italic" : undefined,
      "text-anchor": how.anchor ?? "start",
      "letter-spacing": how.spacing,
      fill: how.colour ?? ink.ink,
      stroke: how.rim ? ink.paper : undefined,
      "stroke-width": how.rim,
      "stroke-linejoin": how.rim ? "round" : undefined,
      "paint-order": how.rim ? "stroke" : undefined,
      style: "font-variant-numeric:tabular-nums",
    },
    escaped(text),
  );
}

const NARROW = new Set("iljtfrI.,:;'|!() \u202f");
const WIDE = new Set("mwMWABCDEGHNOQRSUVXYZ%@");

/** Width of a text in px, on the generous side: a label may have room to spare, never too little. */
export function widthOf(
  text: string,
  { size, weight, spacing }: Pick<Lettering, "size" | "weight" | "spacing">,
): number {
  let em = 0;
  for (const sign of text) em += NARROW.has(sign) ? 0.34 : WIDE.has(sign) ? 0.78 : 0.58;
  return em * size * (weight === 700 ? 1.06 : 1) + (spacing ?? 0) * text.length;
}

const CUT = "\u2026";
/** How many of the last signs stay: names of one house often differ at their end alone. */
const TAIL = 5;

/** A text within a width: one too long is cut in its middle, so that its beginning and its end still tell it apart. */
export function withinWidth(text: string, most: number, how: Pick<Lettering, "size" | "weight" | "spacing">): string {
  if (widthOf(text, how) <= most) return text;
  const signs = Array.from(text);
  const tail = signs.slice(-TAIL).join("").trimStart();
  for (let head = signs.length - TAIL; head > 0; head -= 1) {
    const cut = `${signs.slice(0, head).join("").trimEnd()}${CUT}${tail}`;
    if (widthOf(cut, how) <= most) return cut;
  }
  return `${CUT}${tail}`;
}

/** A text in lines within a width, broken between its words; a single word too long for a line is cut. */
export function linesWithin(
  text: string,
  most: number,
  how: Pick<Lettering, "size" | "weight" | "spacing">,
): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && widthOf(longer, how) <= most) lines[lines.length - 1] = longer;
    else lines.push(withinWidth(word, most, how));
  }
  return lines;
}
