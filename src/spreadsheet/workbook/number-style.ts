import { FILE_LIMITS } from "../file/limits.ts";
import type { CancelSign, SheetFile } from "../file/sheet-file.ts";
import { readXml } from "./xml-pieces.ts";
import type { ZipPart } from "./zip-directory.ts";

/** What the look of a number makes of it: a day count, a share in percent, or the number it is. */
export type NumberStyle = "date" | "percent" | "number";

/**
 * Formats that every program knows by number. Source: ECMA-376 part 1, 18.8.30 (numFmt): 14 to 22 and 45 to 47 are dates
 * and times everywhere, 27 to 36 and 50 to 58 in East Asian languages; 9 and 10 are percent (from memory).
 */
function builtIn(id: number): NumberStyle {
  if (id === 9 || id === 10) return "percent";
  const isDate = (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58);
  return isDate ? "date" : "number";
}

/**
 * What a format's code makes of a number. Words in quotes, single signs after a stroke, widths and fillings, colours and
 * conditions say nothing; a letter of the calendar or the clock makes it a date, a percent sign a share.
 * Source: ECMA-376 part 1, 18.8.31 (numFmts) (from memory). Example: dd"/"mm is a date, 0.0"%" a number, 0% a share.
 */
export function styleOfFormat(code: string): NumberStyle {
  const bare = code
    .replaceAll(/"[^"]*"?/g, "")
    .replaceAll(/[\\_*][\s\S]/g, "")
    // elapsed time is written in brackets; everything else in brackets is a colour, a condition or a language
    .replaceAll(/\[(?!h+\]|m+\]|s+\])[^\]]*\]?/gi, "")
    .replaceAll(/general/gi, "");
  if (/[ymdhs]|am\/pm|a\/p/i.test(bare) || /\[[hms]+\]/i.test(bare)) return "date";
  return bare.includes("%") ? "percent" : "number";
}

/**
 * The style of each look that cells name by its number.
 * Source: ECMA-376 part 1, 18.8.10 (cellXfs), 18.8.45 (xf), 18.8.31 (numFmts) (from memory).
 */
export async function readNumberStyles(
  file: SheetFile,
  part: ZipPart,
  cancel: CancelSign,
): Promise<readonly NumberStyle[]> {
  const formats = new Map<number, NumberStyle>();
  const styles: NumberStyle[] = [];
  let inside = "";
  await readXml(
    file,
    part,
    FILE_LIMITS.stylesBytes,
    (token, xml) => {
      if (xml.depth === 2) inside = token === "open" ? xml.name : "";
      if (token !== "open" || xml.depth !== 3) return;
      const id = Number(xml.attribute("numFmtId") ?? 0);
      if (inside === "numFmts" && xml.name === "numFmt")
        formats.set(id, styleOfFormat(xml.attribute("formatCode") ?? ""));
      if (inside === "cellXfs" && xml.name === "xf") styles.push(formats.get(id) ?? builtIn(id));
    },
    cancel,
  );
  return styles;
}
