import { element, escaped, px } from "./markup.ts";

/** The sheet a plate is drawn on: named for a screen reader, with its scales readable by a test. */
export function plate(
  sheet: {
    readonly id: string;
    readonly kind: string;
    readonly width: number;
    readonly height: number;
    readonly title: string;
    readonly description: string;
    readonly scales?: Readonly<Record<`data-${string}`, number | string>>;
    /** Printed size in millimetres; then the drawing's own unit is the millimetre. */
    readonly millimetres?: boolean;
  },
  ...parts: readonly string[]
): string {
  const { id } = sheet;
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      class: sheet.kind,
      viewBox: `0 0 ${px(sheet.width)} ${px(sheet.height)}`,
      width: sheet.millimetres ? `${px(sheet.width)}mm` : undefined,
      height: sheet.millimetres ? `${px(sheet.height)}mm` : undefined,
      role: "img",
      "aria-labelledby": `${id}-title`,
      "aria-describedby": `${id}-desc`,
      ...sheet.scales,
    },
    `<title id="${id}-title">${escaped(sheet.title)}</title><desc id="${id}-desc">${escaped(sheet.description)}</desc>${parts.join("")}`,
  );
}
