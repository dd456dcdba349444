import type { Maybe } from "../missing/index.ts";
import type { MilliosmolePerLitre } from "../quantity/index.ts";

/**
 * What a drug does to tissue when it leaves the vein.
 *   vesicant   can kill tissue      irritant   can hurt it without killing it      neither   does neither
 */
export const TISSUE_CLASSES = ["vesicant", "irritant", "neither"] as const;
export type TissueClass = (typeof TISSUE_CLASSES)[number];

/** One drug or fluid as it is given, with what is known of it and where from. */
export interface Infusate {
  readonly id: string;
  readonly name: string;
  readonly osmolarity: Maybe<MilliosmolePerLitre>;
  readonly ph: Maybe<number>;
  readonly tissueClass: Maybe<TissueClass>;
  /** Published lists disagree on the class; the stricter one is held. */
  readonly classDisputed: boolean;
  /** The class another list gives the same drug, where it is not the one held here. */
  readonly listedClass?: TissueClass;
  /** A drug against cancer: several rules name it so. */
  readonly againstCancer: boolean;
  /** Parenteral nutrition: it has osmolarity limits of its own. */
  readonly nutrition: boolean;
  readonly source: string;
  readonly howKnown: string;
}
