/** Words of the trade that more than one event uses. */
export const ARMS = ["right", "left"] as const;
export const VEINS = ["basilic", "brachial", "cephalic", "axillary"] as const;
export const SETTINGS = ["ward", "home"] as const;

/** Where a tip is read to lie. Only the last four lie in the cava or the atrium; for the others there is no number. */
export const TIP_PLACES = [
  "neck vein",
  "other side",
  "azygos vein",
  "innominate vein",
  "subclavian or axillary vein",
  "loop",
  "upper or middle cava",
  "lower third of the cava",
  "cavo-atrial junction",
  "right atrium",
] as const;

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
