/** Words of the trade that more than one event uses. */
export const ARMS = ["right", "left"] as const;
export const VEINS = ["basilic", "brachial", "cephalic", "axillary"] as const;
export const SETTINGS = ["ward", "home"] as const;

export const GIVEN = [
  "vesicant",
  "parenteral nutrition",
  "other drug",
  "blood",
  "sampling",
  "power injection",
] as const;
export const SYMPTOMS = [
  "arm swelling",
  "arm or shoulder pain",
  "chest pain",
  "ear sound on flushing",
  "palpitations",
  "leak",
  "fever",
  "chills",
] as const;
export const SITE_SIGNS = ["redness", "pus", "hardness", "tenderness", "bleeding", "skin damage"] as const;

/** What an end was for; only these words, so that "therapy complete" is never the filler of an empty cell. */
export const REMOVAL_REASONS = [
  "treatment ended",
  "infection suspected",
  "infection",
  "clot",
  "blocked",
  "tip moved",
  "came out",
  "leak or break",
  "replaced",
  "patient's wish",
  "died",
] as const;

/** The papers of a line, in the order of its life. */
export const LINE_PAPER_NAMES = [
  "record form",
  "film slip",
  "bed sign",
  "patient card",
  "picture card",
  "home sheet",
  "culture card",
  "removal slip",
  "recall letter",
  "arm-protection note",
] as const;
export type LinePaperName = (typeof LINE_PAPER_NAMES)[number];
