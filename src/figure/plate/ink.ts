/** The colours and faces of a plate. A meaning is never in the colour alone, so paper may turn all of it to grey. */
export interface Ink {
  readonly paper: string;
  readonly ink: string;
  readonly soft: string;
  readonly hair: string;
  readonly vein: string;
  readonly act: string;
  readonly wash: string;
  readonly serif: string;
  readonly plain: string;
}

/** On the page: the page's own custom properties, so light, dark and print follow without drawing again. */
export const PAGE_INK: Ink = {
  paper: "var(--paper, #faf7f0)",
  ink: "var(--ink, #1c1b19)",
  soft: "var(--soft, #5f5a50)",
  hair: "var(--hair, #cfc8b8)",
  vein: "var(--vein, #5a6f86)",
  act: "var(--act, #b83616)",
  wash: "var(--wash, #f0dbd1)",
  serif: "var(--serif, 'Source Serif 4', Georgia, serif)",
  plain: "var(--plain, 'Atkinson Hyperlegible Next', Verdana, sans-serif)",
};

/** On printed paper: greys only, written out, because a PDF knows no custom property. */
export const GREY_INK: Ink = {
  paper: "#ffffff",
  ink: "#000000",
  soft: "#333333",
  hair: "#9a9a9a",
  vein: "#6a6a6a",
  act: "#000000",
  wash: "#dcdcdc",
  serif: "Source Serif 4",
  plain: "Atkinson Hyperlegible Next",
};
