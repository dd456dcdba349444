import { milliosmolePerLitre, type MilliosmolePerLitre } from "../quantity/index.ts";

/** What a compounded bag holds, whole bag. */
export interface BagParts {
  readonly volumeMl: number;
  readonly glucoseG: number;
  readonly aminoAcidG: number;
  /** Sodium or potassium chloride and other salts that part into two ions, mmol. */
  readonly monovalentSaltsMmol: number;
  /** Single ions given by their own amount, mmol (a salt of three ions counts three times). */
  readonly otherIonsMmol: number;
  readonly lipidG: number;
  /** From the label of the emulsion; about 1.3 to 1.5 per gram. */
  readonly lipidMosmPerG: number;
}

export interface BagFault {
  readonly fault: "volume must be above zero" | "no part may be below zero";
}

const GLUCOSE_PER_G = 5;
const AMINO_ACID_PER_G = 10;
const IONS_OF_MONOVALENT_SALT = 2;

/**
 * Osmolarity of a compounded bag from its parts, by the additive rule of pharmacy.
 *   osmolarity = (5 glucose + 10 amino acid + 2 monovalent salts + other ions + lipid x label) / volume
 *   grams and mmol of the whole bag; volume in litres; answer in mOsm/L
 * Holds: dilute additive mixing; an estimate that a measured osmolality beats.
 * Errors: a volume of zero, or an amount below zero, is named and no number is given.
 * Source: additive rule of parenteral nutrition, from memory.
 * Example: 40 g amino acid, 100 g glucose, 50 mmol monovalent salts in a litre, 1,000 mOsm/L.
 */
export function bagOsmolarity(bag: BagParts): MilliosmolePerLitre | BagFault {
  if (!(bag.volumeMl > 0)) return { fault: "volume must be above zero" };
  const parts = [
    bag.glucoseG * GLUCOSE_PER_G,
    bag.aminoAcidG * AMINO_ACID_PER_G,
    bag.monovalentSaltsMmol * IONS_OF_MONOVALENT_SALT,
    bag.otherIonsMmol,
    bag.lipidG * bag.lipidMosmPerG,
  ];
  if (parts.some((part) => !(part >= 0))) return { fault: "no part may be below zero" };
  return milliosmolePerLitre(parts.reduce((sum, part) => sum + part, 0) / (bag.volumeMl / 1000));
}
