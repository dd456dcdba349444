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
