import type { Sheet } from "../file/index.ts";
import { datePartsOf, ordersThatFit } from "./date-text.ts";
import { FIELD_NAMES, fieldOf, headerFit, type FieldName, type Unit } from "./field.ts";
import type { ColumnMatch, Matching } from "./matching.ts";
import { absenceOf, indicationOf, readQuantity, sideOf, tipPlaceOf, veinOf } from "./word.ts";

export type Confidence = "sure" | "likely" | "a guess";
export type ColumnQuestion = "date order" | "mixed date orders" | "century" | "day count system" | "unit";

/** Why a column was taken for what it is, and what only a person can say. */
export interface Suggestion {
  readonly header: string;
  readonly field: FieldName | "left out";
  readonly confidence: Confidence;
  readonly reason: "header" | "header and values" | "values" | "nothing fits";
  /** A value seen that shows it. */
  readonly seen: string;
  readonly questions: readonly ColumnQuestion[];
}

export interface SuggestedMatching {
  /** Not confirmed; a question's answer is left open in it. */
  readonly matching: Matching;
  readonly suggestions: readonly Suggestion[];
}

const share = (texts: readonly string[], fits: (text: string) => boolean): number =>
  texts.length === 0 ? 0 : texts.filter(fits).length / texts.length;

/** How far the values of a column are of a field's kind. */
function valueFit(name: FieldName, texts: readonly string[]): number {
  if (name === "side") return share(texts, (text) => sideOf(text) !== undefined);
  if (name === "vein") return share(texts, (text) => veinOf(text) !== undefined);
  if (name === "tipPlace") return share(texts, (text) => tipPlaceOf(text) !== undefined);
  if (name === "indication") return share(texts, (text) => indicationOf(text) !== undefined);
  const { kind } = fieldOf(name);
  if (kind === "date")
    return share(texts, (text) => datePartsOf(text) !== undefined || /^[2-5]\d{4}([.,]\d+)?$/.test(text));
  if (kind === "number") return share(texts, (text) => readQuantity(text) !== undefined);
  if (kind === "key") return share(texts, (text) => /\d/.test(text) && !datePartsOf(text));
  return share(texts, (text) => /\p{L}|\d/u.test(text));
}

/** Suggests what every column is, from the words of its header and the values below it. Nothing is read until a person confirms. */
export function suggestMatching(sheet: Pick<Sheet, "headers" | "sample" | "dateSystem">): SuggestedMatching {
  const columns = sheet.headers.map((header, at) => ({
    header,
    texts: sheet.sample.map(({ cells }) => (cells[at] ?? "").trim()).filter((text) => absenceOf(text) === undefined),
  }));
  const scored = columns.flatMap(({ header, texts }, at) =>
    FIELD_NAMES.map((name) => {
      const words = headerFit(header, name);
      const values = valueFit(name, texts);
      const score = words > 0 ? words * (texts.length === 0 ? 0.8 : 0.3 + 0.7 * values) : 0;
      return { at, name, words, values, score: score > 0 ? score : wordlessScore(name, values, texts) };
    }),
  );
  const taken = new Map<number, (typeof scored)[number]>();
  const used = new Set<FieldName>();
  for (const one of scored.filter(({ score }) => score > 0.25).sort((a, b) => b.score - a.score)) {
    if (taken.has(one.at) || used.has(one.name)) continue;
    taken.set(one.at, one);
    used.add(one.name);
  }
  const results = columns.map(({ header, texts }, at) => {
    const one = taken.get(at);
    if (!one) return leftOut(header, texts);
    const { style, questions } = styleOf(one.name, header, texts, sheet.dateSystem);
    const confidence: Confidence = one.words === 1 && one.values > 0.9 ? "sure" : one.words > 0 ? "likely" : "a guess";
    const reason =
      one.words === 0 ? ("values" as const) : one.values > 0.9 ? ("header and values" as const) : ("header" as const);
    return {
      column: { header, field: one.name, ...style } satisfies ColumnMatch,
      suggestion: { header, field: one.name, confidence, reason, seen: texts[0] ?? "", questions },
    };
  });
  return {
    matching: { format: "veinwright-matching-1", columns: results.map(({ column }) => column), confirmedBy: "" },
    suggestions: results.map(({ suggestion }) => suggestion),
  };
}

const leftOut = (
  header: string,
  texts: readonly string[],
): { readonly column: ColumnMatch; readonly suggestion: Suggestion } => ({
  column: { header, field: "left out" },
  suggestion: {
    header,
    field: "left out",
    confidence: "a guess",
    reason: "nothing fits",
    seen: texts[0] ?? "",
    questions: [],
  },
});

/** Only arms and veins can be told from their values alone; a date could be any of seven. */
const wordlessScore = (name: FieldName, values: number, texts: readonly string[]): number =>
  (name === "side" || name === "vein") && values > 0.9 && texts.length >= 3 ? 0.3 * values : 0;

function styleOf(
  name: FieldName,
  header: string,
  texts: readonly string[],
  system: Sheet["dateSystem"],
): { readonly style: Partial<ColumnMatch>; readonly questions: readonly ColumnQuestion[] } {
  const field = fieldOf(name);
  const questions: ColumnQuestion[] = [];
  if (field.kind === "date") {
    const parts = texts.map(datePartsOf);
    const orders = ordersThatFit(texts);
    const short = parts.some((one) => one?.shape === "short");
    if (short && orders.length > 1) questions.push("date order");
    if (short && orders.length === 0) questions.push("mixed date orders");
    if (parts.some((one) => one?.twoDigitYear)) questions.push("century");
    const serials = texts.some((text) => /^\d{5}([.,]\d+)?$/.test(text));
    if (serials && !system) questions.push("day count system");
    const order = short && orders.length === 1 ? orders[0] : undefined;
    return { style: { ...(order ? { order } : {}), ...(system ? { serialSystem: system } : {}) }, questions };
  }
  if (!field.units) return { style: {}, questions };
  const named = unitIn(header, field.units);
  const units = new Set(texts.map((text) => readQuantity(text)?.unit));
  const [only] = units.size === 1 ? [...units] : [];
  const unit = named ?? field.units.find((known) => known === only);
  return unit ? { style: { unit }, questions } : { style: {}, questions: ["unit"] };
}

const UNIT_WORDS: Readonly<Record<Unit, RegExp>> = {
  Fr: /\b(fr|french)\b/i,
  mm: /\bmm\b/i,
  cm: /\bcm\b/i,
  in: /\b(inch|inches)\b|\(in\)/i,
};
const unitIn = (header: string, units: readonly Unit[]): Unit | undefined => {
  const found = units.filter((unit) => UNIT_WORDS[unit].test(header));
  return found.length === 1 ? found[0] : undefined;
};
