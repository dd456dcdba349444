import { Refused } from "../file/refusal.ts";

/**
 * The text that a cell shows: signs that XML cannot hold are written as _xHHHH_, and a true underline before such a
 * spelling as _x005F_.
 * Throws a refusal for half a character, for two such texts become one when they are written as UTF-8.
 * Source: ECMA-376 part 1, 22.9.2.19 (ST_Xstring) (from memory). Example: "a_x000D_b" is a, carriage return, b.
 */
export function plainText(text: string, row?: number): string {
  if (!text.includes("_x")) return text;
  const plain = text.replaceAll(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
  if (/\p{Surrogate}/u.test(plain)) throw new Refused("zip-damaged", "a text with half a character", row);
  return plain;
}
