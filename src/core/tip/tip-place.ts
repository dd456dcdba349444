/** Where a tip is read to lie. The last four lie in the cava or the atrium; for the others there is no number. */
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
export type TipPlace = (typeof TIP_PLACES)[number];

/** Whether a tip there lies in the cava or the atrium at all. */
export const isInCava = (place: TipPlace): boolean => TIP_PLACES.indexOf(place) >= 6;
