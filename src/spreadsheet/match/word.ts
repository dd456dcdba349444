import { INDICATIONS, type RemovalReason } from "../../audit/index.ts";
import type { MissingKind } from "../../core/missing/index.ts";
import { TIP_PLACES, type TipPlace } from "../../core/tip/index.ts";

/** The words of a sheet are few and come again and again: the last of them are kept as they were made plain. */
const MADE_PLAIN = new Map<string, string>();
const MOST_KEPT = 4096;
const LONGEST_KEPT = 60;

function plain(text: string): string {
  const before = MADE_PLAIN.get(text);
  if (before !== undefined) return before;
  const made = text
    .trim()
    .slice(0, 200)
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll(/[^a-z0-9/?#]+/g, " ")
    .trim();
  if (MADE_PLAIN.size >= MOST_KEPT) MADE_PLAIN.clear();
  if (text.length <= LONGEST_KEPT) MADE_PLAIN.set(text, made);
  return made;
}

const ABSENCES: readonly (readonly [MissingKind, readonly string[]])[] = [
  ["not asked", ["", "null", "#n/a", "#error", "#value", "#ref", "not asked", "tbc", "pending"]],
  [
    "not measured",
    ["not done", "not measured", "n/a measured", "not taken", "not seen", "nd", "non mesure", "nicht gemessen"],
  ],
  ["refused", ["declined", "refused", "patient declined", "patient refused", "would not say", "refuse", "abgelehnt"]],
  [
    "not known",
    [
      "n/k",
      "nk",
      "n/a",
      "na",
      "not known",
      "unknown",
      "nil",
      "none",
      "?",
      "missing",
      "inconnu",
      "unbekannt",
      "not recorded",
      "not documented",
      "nr",
      "n c",
      "lost",
      "lost to f/u",
      "lost to follow up",
      "perdu de vue",
    ],
  ],
];
/** A letter or digit of another script than the Latin one, which `plain` leaves away. */
const OTHER_LETTER = /(?!\p{Script=Latin})[\p{L}\p{Nd}](?<![0-9])/u;
const ABSENCE_OF: ReadonlyMap<string, MissingKind> = new Map(
  ABSENCES.flatMap(([kind, words]) => words.map((word) => [word, kind] as const)),
);

/**
 * Which of the four absences a cell writes; undefined when it holds a value. An empty cell and a program's own error
 * were not asked; "n/a" was thought about and stays not known, for it does not say why. A word in letters that no absence
 * is written in is a value: a ward may be named in any script.
 */
export function absenceOf(text: string): MissingKind | undefined {
  // no word of absence begins with a digit, and most cells do
  if (/^\d/.test(text)) return undefined;
  if (text === "" || /^[\s-]+$/.test(text)) return "not asked";
  return OTHER_LETTER.test(text) ? undefined : ABSENCE_OF.get(plain(text));
}

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
  [/leak|break|broke|fractur|ruptur/, "leak or break"],
  [/replac|exchang/, "replaced"],
  [/\b(patient|pt).*(wish|request|choice)/, "patient's wish"],
  [/died|death|deceased|rip\b/, "died"],
  [/complet|finish|end of|\beot\b|treatment ended|no longer needed|therapy/, "treatment ended"],
];
/** Why a line left: a reason of removal, or that another place looks after it now. */
export const reasonOf = (text: string): RemovalReason | "handed on" | undefined => {
  const word = plain(text);
  if (/^(transfer|transferred|transfer out|transferred out|handed (on|over)|verlegt|transfere)\b/.test(word))
    return "handed on";
  return REASONS.find(([pattern]) => pattern.test(word))?.[1];
};

/** Whether a cell of an event's day says that there was none. */
export const saysNo = (text: string): boolean => /^(no|n|never|0|false|non|nein)$/.test(plain(text));

/** Whether a cell of the removal's date says that the line is still in. */
export const isStillIn = (text: string): boolean =>
  /^(still in|in situ|in place|ongoing|en place|noch drin|liegt)( situ| place)?$/.test(plain(text));

const COUNT_WORDS: ReadonlyMap<string, number> = new Map([
  ["single", 1],
  ["double", 2],
  ["dual", 2],
  ["triple", 3],
  ["quad", 4],
]);
/** A number of lumens written as the trade says it: "single", "double lumen". */
export const lumensOf = (text: string): number | undefined => COUNT_WORDS.get(plain(text).replace(/ lumens?$/, ""));

type Indication = (typeof INDICATIONS)[number];
const USES: readonly (readonly [RegExp, Indication])[] = [
  [/antibio|antimicrob|antivir|antifung|\biv ?ab|opat/, "antimicrobial"],
  [/chemo|sact|cytotox/, "chemotherapy"],
  [/\b(tpn|pn|hpn)\b|nutrition/, "parenteral nutrition"],
  [/sampling|blood (test|draw)/, "blood sampling"],
  [/access|no (other )?vein/, "no other vein"],
  [/fluid|infusion|inotrop|vaso|iron/, "other infusion"],
];
/** What a line was for, where the words name one use; two uses in one cell are left to a person. */
export function indicationOf(text: string): Indication | undefined {
  const word = plain(text);
  const exact = INDICATIONS.find((one) => one === word);
  const found = USES.filter(([pattern]) => pattern.test(word));
  return exact ?? (found.length === 1 ? found[0]?.[1] : undefined);
}

const PLACES: readonly (readonly [RegExp, TipPlace])[] = [
  [/cavo ?atrial|\bcaj\b|\bacj\b|junction/, "cavo-atrial junction"],
  [/(lower|distal|low).*(svc|cava)|(svc|cava).*(lower|distal)/, "lower third of the cava"],
  [/(upper|mid|middle|proximal|high).*(svc|cava)|(svc|cava).*(upper|mid|proximal)/, "upper or middle cava"],
  [/\bra\b|right atri/, "right atrium"],
  [/jugular|\bij\b|\bijv\b|neck/, "neck vein"],
  [/azyg/, "azygos vein"],
  [/innominate|brachioceph/, "innominate vein"],
  [/subclav|axill/, "subclavian or axillary vein"],
  [/contralat|other side|opposite/, "other side"],
  [/loop|coil/, "loop"],
];
/** Where the tip was read to lie; a bare "SVC" does not say which third and is left to a person. */
export function tipPlaceOf(text: string): TipPlace | undefined {
  const word = plain(text);
  const exact = TIP_PLACES.find((one) => plain(one) === word);
  const found = PLACES.filter(([pattern]) => pattern.test(word));
  return exact ?? (found.length === 1 ? found[0]?.[1] : undefined);
}

/** A number with a decimal comma or point and perhaps its unit; a thousands mark is refused, for it could be either. */
export function readQuantity(text: string): { readonly value: number; readonly unit?: string } | undefined {
  if (text.length > 40) return undefined;
  const match = /^([<>~]?)\s*(-?\d+(?:[.,]\d+)?)\s*(fr|f|french|mm|cm|in|inch|inches|"|%|kg|y|yrs?|years?)?\.?$/i.exec(
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
  // a note that begins with a dash is a list's; a call, a pipe or another sheet is what harms
  if (/^-\s+\p{L}/u.test(start) && !/[(|!=]/.test(text)) return false;
  return /^[=+\-@]/.test(start) && start.trimEnd().length > 1 && !/^[+-]?[\d.,\s()]+$/.test(start);
}
