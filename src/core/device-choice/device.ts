/** What can be placed, least invasive first; "none" is an answer too. */
export const DEVICES = [
  "none",
  "short peripheral cannula",
  "ultrasound-guided long cannula",
  "midline",
  "PICC",
  "tunnelled PICC",
  "non-tunnelled central line",
  "small-bore tunnelled jugular line",
  "tunnelled cuffed line",
  "implanted port",
] as const;
export type Device = (typeof DEVICES)[number];

/** How a rule rates a device, best first. "barred" stands above every other word: the situation itself forbids it. */
export const RATINGS = ["first choice", "appropriate", "uncertain", "inappropriate", "barred"] as const;
export type Rating = (typeof RATINGS)[number];

export const ratingRank = (rating: Rating): number => RATINGS.indexOf(rating);

/** Rated so that it may be offered. */
export const isOffered = (rating: Rating): boolean => ratingRank(rating) <= ratingRank("uncertain");
