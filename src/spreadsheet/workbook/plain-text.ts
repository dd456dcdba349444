/**
 * The text that a cell shows: signs that XML cannot hold are written as _xHHHH_, and a true underline before such a
 * spelling as _x005F_.
 * Source: ECMA-376 part 1, 22.9.2.19 (ST_Xstring) (from memory). Example: "a_x000D_b" is a, carriage return, b.
 */
export const plainText = (text: string): string =>
  text.includes("_x")
    ? text.replaceAll(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
    : text;
