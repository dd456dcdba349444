import type { Block } from "./sheet.ts";

/** A number and its unit stay on one line: "3.0" at a line's end with "cm" below it can be read as another number. */
export const unbroken = (blocks: readonly Block[]): readonly Block[] =>
  JSON.parse(JSON.stringify(blocks).replaceAll("\u2009", "\u202f")) as readonly Block[];
