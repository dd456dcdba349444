import type { RemovalReason } from "../../audit/index.ts";

const plain = (text: string): string =>
  text
    .trim()
    .slice(0, 200)
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/[^a-z0-9/?#]+/g, " ")
    .trim();

/** What people write when there is nothing to write. */
export const isAbsence = (text: string): boolean => {
  const word = plain(text);
  return [
    "",
    "n/a",
    "na",
    "n/k",
    "nk",
    "not known",
    "unknown",
    "null",
    "nil",
    "none",
    "?",
    "#n/a",
    "#error",
    "missing",
    "inconnu",
    "unbekannt",
    "not recorded",
  ].includes(word);
};

export function sideOf(text: string): "left arm" | "right arm" | undefined {
  const word = plain(text);
  const left = /\b(l|left|lt|lua|lue|gauche|g|links|li|izquierdo|izq)\b/.test(word);
  const right = /\b(r|right|rt|rua|rue|droit|droite|d|rechts|re|derecho|der)\b/.test(word);
  return left === right ? undefined : left ? "left arm" : "right arm";
}

export function veinOf(text: string): "basilic" | "brachial" | "cephalic" | "axillary" | undefined {
  const word = plain(text);
  const found = (
    [
      ["basilic", /\bbas/],
      ["brachial", /\bbra(?!s|z)/],
      ["cephalic", /\b(ceph|cef)/],
      ["axillary", /\b(ax|achsel)/],
    ] as const
  ).filter(([, pattern]) => pattern.test(word));
  return found.length === 1 ? found[0]?.[0] : undefined;
}

const REASONS: readonly (readonly [RegExp, RemovalReason])[] = [
  [/suspect|\?.*infect|infect.*\?|query infection|fever/, "infection suspected"],
  [/infect|sepsis|bsi/, "infection"],
  [/clot|thromb|dvt/, "clot"],
  [/block|occlu/, "blocked"],
  [/migrat|malposition|tip moved/, "tip moved"],
  [/came out|fell out|pulled|dislodg|accident/, "came out"],
  [/leak|break|broke|fractur/, "leak or break"],
  [/replac|exchang/, "replaced"],
  [/patient.*(wish|request|choice)/, "patient's wish"],
  [/died|death|deceased|rip\b/, "died"],
  [/complet|finish|end of|treatment ended|no longer needed|therapy/, "treatment ended"],
];
export const reasonOf = (text: string): RemovalReason | undefined =>
  REASONS.find(([pattern]) => pattern.test(plain(text)))?.[1];

/** A number with a decimal comma or point and perhaps its unit; a thousands mark is refused, for it could be either. */
export function readQuantity(text: string): { readonly value: number; readonly unit?: string } | undefined {
  if (text.length > 40) return undefined;
  const match = /^([<>~]?)\s*(-?\d+(?:[.,]\d+)?)\s*(fr|f|french|mm|cm|in|inch|inches|"|y|yrs?|years?)?\.?$/i.exec(
    text.trim(),
  );
  if (!match || match[1] !== "" || /^-?[1-9]\d{0,2}[.,]\d{3}$/.test(match[2] ?? "")) return undefined;
  const word = match[3]?.toLowerCase();
  const unit = word === undefined ? undefined : word.startsWith("f") ? "Fr" : /^(in|")/.test(word) ? "in" : word;
  return { value: Number((match[2] as string).replace(",", ".")), ...(unit ? { unit } : {}) };
}

/** Text that a spreadsheet program would work out when it opens an export; a plain number or a lone dash is none. */
export function looksLikeFormula(text: string): boolean {
  // only the beginning is looked at, so that a long cell costs no more than a short one
  const start = text.slice(0, 80).replace(/^[\s\uFEFF]+/, "");
  return /^[=+\-@]/.test(start) && start.trimEnd().length > 1 && !/^[+-]?[\d.,\s()]+$/.test(start);
}
