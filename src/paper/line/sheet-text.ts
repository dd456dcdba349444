import type { Block, Sheet } from "./sheet.ts";

/** A paper in plain lines, in its own order: for a terminal, and for whoever hears it read. */
export function sheetText(sheet: Sheet): readonly string[] {
  const { title, caption, name, identifiers, arm, practice, blocks, foot, page } = sheet;
  const head = [`${title}. ${caption}`, [name, identifiers, arm, practice].filter((one) => one !== "").join(", ")];
  return [...head, "", ...blocks.flatMap(blockText), "", `${foot} ${page}`];
}

const withNote = (value: string, note: string | undefined): string => (note ? `${value} (${note})` : value);
const boxes = (options: readonly string[], ticked: readonly string[]): string =>
  options.map((option) => `[${ticked.includes(option) ? "x" : " "}] ${option}`).join("  ");

function blockText(block: Block): readonly string[] {
  switch (block.kind) {
    case "heading":
      return ["", `${block.text}:`];
    case "loud":
    case "say":
    case "soft":
      return [block.text];
    case "list":
      return block.items.map((item, at) => (block.numbered ? `${at + 1}. ${item}` : `- ${item}`));
    case "numbers":
      return block.items.map(({ label, value, note }) => `${label}: ${withNote(value, note)}`);
    case "rows":
      return block.rows.map(({ label, value, note }) => `${label}: ${withNote(value, note)}`);
    case "form":
      return block.rows.map(({ number, label, options, ticked, value, unit, missing, note }) => {
        const answer = options.length > 0 ? boxes(options, ticked) : value || "________";
        const why = missing === "" ? "" : `  (${missing})`;
        return `${number}. ${label}: ${withNote(answer, note)}${unit ? ` ${unit}` : ""}${why}`;
      });
    case "boxes":
      return [`${block.label ? `${block.label}: ` : ""}${boxes(block.options, [block.ticked])}`];
    case "sign":
    case "write":
      return block.items.map((item) => `${item}: ________`);
    case "typed":
      return [...block.lines, block.caption];
    case "table":
      return [block.head, ...block.rows].map((row) => row.join(" | "));
    case "drawing":
      return [block.drawing.alt];
    case "pictures":
      return block.items.map(({ title, words }) => `${title}. ${words}`);
    case "columns":
      return block.columns.flatMap((column) => column.flatMap(blockText));
    default:
      return block satisfies never;
  }
}
