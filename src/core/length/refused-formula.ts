/** A published formula that this program does not use for a line in the arm, and why. */
export interface RefusedFormula {
  readonly code: string;
  readonly formula: string;
  readonly source: string;
  readonly reason: "measure-not-described" | "coefficients-not-printed" | "for-chest-lines" | "printed-unit-impossible";
}

/** Printed formulas that were weighed and left out, so that nobody adds them in good faith. */
export const refusedFormulas: readonly RefusedFormula[] = [
  {
    code: "adult-film",
    formula: "19.409 + 0.424 chest + 0.287 clavicle + 0.203 thoracic distance + 2 vertebral units",
    source: "film formula from 156 adults (PubMed 36367880); how the thoracic distance is taken was not seen",
    reason: "measure-not-described",
  },
  {
    code: "newborn-by-weight",
    formula: "section constant + b x weight",
    source: "790 newborns, four veins; the coefficients were not seen",
    reason: "coefficients-not-printed",
  },
  {
    code: "height-over-ten",
    formula: "height / 10; - 2; + 4 (cm), by neck or chest vein",
    source: "Peres PW 1990, Anaesth Intensive Care 18:536 (from memory)",
    reason: "for-chest-lines",
  },
  {
    code: "height-over-ten-less",
    formula: "height / 10 - 1.5 (cm), right jugular vein",
    source: "Int J Med Sci 2024, 21:431",
    reason: "for-chest-lines",
  },
  {
    code: "newborn-hand-by-gram",
    formula: "17.98 + 0.618 x weight in grams",
    source: "printed for the newborn's hand; 1,200 g would give 760 cm",
    reason: "printed-unit-impossible",
  },
];
