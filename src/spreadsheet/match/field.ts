export type FieldKind = "key" | "date" | "number" | "word" | "code";

export interface Field {
  readonly kind: FieldKind;
  /** Words a header may hold, in the languages seen in the trade; longest fit wins. Plain letters, lower case. */
  readonly headerWords: readonly string[];
  /** Units the column may be in; more than one is asked unless the header names it. */
  readonly units?: readonly Unit[];
}

export const UNITS = ["Fr", "mm", "cm", "in"] as const;
export type Unit = (typeof UNITS)[number];

/** What a spreadsheet of lines may tell. A column of anything else is left out, by the person's word. */
export const FIELDS = {
  patient: {
    kind: "key",
    headerWords: [
      "mrn",
      "patient",
      "patient id",
      "patient no",
      "patient number",
      "hospital number",
      "hosp no",
      "unit no",
      "record number",
      "ur number",
      "study id",
      "nip",
      "numero patient",
      "fallnummer",
      "historia",
    ],
  },
  birthDate: {
    kind: "date",
    headerWords: [
      "dob",
      "d o b",
      "date of birth",
      "birth date",
      "birth",
      "born",
      "date de naissance",
      "geburtsdatum",
      "fecha de nacimiento",
    ],
  },
  ageYears: { kind: "number", headerWords: ["age", "age years", "age at insertion", "alter", "edad"] },
  placedOn: {
    kind: "date",
    headerWords: [
      "date placed",
      "placed",
      "placed on",
      "inserted",
      "insertion date",
      "date of insertion",
      "date inserted",
      "insertion",
      "date in",
      "placement date",
      "line in",
      "start date",
      "date de pose",
      "pose",
      "anlage",
      "anlagedatum",
      "fecha de insercion",
    ],
  },
  removedOn: {
    kind: "date",
    headerWords: [
      "date removed",
      "removed",
      "removed on",
      "removal date",
      "date of removal",
      "date out",
      "removal",
      "line out",
      "end date",
      "date de retrait",
      "retrait",
      "entfernt",
      "entfernungsdatum",
      "fecha de retirada",
    ],
  },
  removalReason: {
    kind: "word",
    headerWords: [
      "reason",
      "reason removed",
      "removal reason",
      "reason for removal",
      "why removed",
      "why out",
      "motif",
      "motif de retrait",
      "grund",
      "motivo",
    ],
  },
  side: {
    kind: "word",
    headerWords: [
      "arm",
      "side",
      "laterality",
      "limb",
      "r/l",
      "l/r",
      "left/right",
      "bras",
      "cote",
      "seite",
      "brazo",
      "lado",
    ],
  },
  vein: { kind: "word", headerWords: ["vein", "vein used", "vessel", "vein name", "veine", "vene", "vena"] },
  sizeFr: {
    kind: "number",
    headerWords: [
      "fr",
      "od",
      "outer diameter",
      "outside diameter",
      "french",
      "size",
      "catheter size",
      "gauge",
      "line size",
      "taille",
      "grosse",
      "calibre",
    ],
    units: ["Fr", "mm"],
  },
  lumens: { kind: "number", headerWords: ["lumens", "lumen", "no of lumens", "number of lumens", "lumina"] },
  veinDiameterMm: {
    kind: "number",
    headerWords: [
      "vein diameter",
      "vein size",
      "diameter",
      "vein width",
      "vein diam",
      "diametre",
      "durchmesser",
      "diametro",
    ],
    units: ["mm", "cm"],
  },
  insideCm: {
    kind: "number",
    headerWords: [
      "length",
      "inside length",
      "internal length",
      "catheter length",
      "trim length",
      "inserted length",
      "cm in",
      "longueur",
      "lange",
      "longitud",
    ],
    units: ["cm", "mm", "in"],
  },
  attempts: {
    kind: "number",
    headerWords: ["attempts", "no of attempts", "punctures", "tries", "tentatives", "versuche", "intentos"],
  },
  ward: { kind: "code", headerWords: ["ward", "unit", "location", "department", "service", "station", "sala"] },
  inserter: {
    kind: "code",
    headerWords: ["inserter", "inserted by", "operator", "placed by", "proceduralist", "pose par"],
  },
  infectionOn: {
    kind: "date",
    headerWords: [
      "infection date",
      "date of infection",
      "infection",
      "crbsi date",
      "clabsi date",
      "bsi date",
      "sepsis",
    ],
  },
  thrombosisOn: {
    kind: "date",
    headerWords: ["thrombosis date", "date of thrombosis", "thrombosis", "dvt date", "clot date", "dvt"],
  },
  occlusionOn: {
    kind: "date",
    headerWords: ["occlusion date", "date of occlusion", "occlusion", "blocked on", "blocked date", "blocked"],
  },
  lot: { kind: "code", headerWords: ["lot", "lot number", "lot no", "batch"] },
  exitSiteOn: {
    kind: "date",
    headerWords: [
      "exit site infection",
      "exit site infection date",
      "exit site inf date",
      "site infection date",
      "exit site date",
    ],
  },
  migrationOn: {
    kind: "date",
    headerWords: ["migration", "migration date", "date of migration", "tip migration date", "moved on"],
  },
  tipPlace: {
    kind: "word",
    headerWords: ["tip", "tip place", "tip position", "tip location", "final tip position", "catheter tip"],
  },
  indication: { kind: "word", headerWords: ["indication", "indication for line", "used for", "therapy", "treatment"] },
  ratioPercent: {
    kind: "number",
    headerWords: [
      "ratio",
      "ratio percent",
      "catheter to vein ratio",
      "catheter vein ratio",
      "catheter/vein",
      "vein occupancy",
      "rapport catheter veine",
    ],
  },
  weightKg: { kind: "number", headerWords: ["weight", "weight kg", "body weight", "poids", "gewicht", "peso"] },
  catheter: {
    kind: "code",
    headerWords: [
      "catheter",
      "catheter type",
      "type of catheter",
      "kind of catheter",
      "line type",
      "device",
      "catheter name",
      "type de catheter",
    ],
  },
  initials: { kind: "code", headerWords: ["initials", "patient initials", "initiales", "initialen", "iniciales"] },
  positionPercent: {
    kind: "number",
    headerWords: ["position percent", "position along arm", "position along the arm", "arm position", "entry position"],
  },
} as const satisfies Readonly<Record<string, Field>>;

export type FieldName = keyof typeof FIELDS;
export const FIELD_NAMES = Object.keys(FIELDS) as readonly FieldName[];
export const fieldOf = (name: FieldName): Field => FIELDS[name];
export const isFieldName = (word: string): word is FieldName => FIELD_NAMES.some((name) => name === word);

/** A header in plain small letters, without accents, marks and the unit in brackets. */
export const plainHeader = (header: string): string =>
  header
    .slice(0, 200)
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll("ø", " diameter ")
    .replaceAll(/[([][^)\]]*[)\]]/g, " ")
    .replaceAll(/\b(fr|mm|cm)$/g, (unit, _word, at: number) => (at === 0 ? unit : " "))
    .replaceAll(/[^a-z0-9/]+/g, " ")
    .trim();

/** A thing and the unit of its width name the width, not the thing: "Catheter Fr", "Vessel mm". */
const WIDTHS: readonly (readonly [RegExp, FieldName])[] = [
  [/\b(catheter|line|picc)\b.*\b(fr|french)\b/, "sizeFr"],
  [/\b(vein|vessel)\b.*\b(mm|cm)\b|^\s*ø.*\b(vein|vessel)\b/, "veinDiameterMm"],
];

/** How well a header fits a field: 1 the same words, less when a word of it stands inside, 0 not at all. */
export function headerFit(header: string, name: FieldName): number {
  const width = WIDTHS.find(([pattern]) => pattern.test(header.slice(0, 200).toLowerCase()))?.[1];
  if (width) return width === name ? 1 : 0;
  const plain = plainHeader(header);
  let best = 0;
  for (const words of fieldOf(name).headerWords) {
    if (plain === words) return 1;
    if (` ${plain} `.includes(` ${words} `)) best = Math.max(best, 0.9 * (words.length / plain.length));
  }
  return best;
}
