import type { Side } from "../arm/index.ts";
import type { Maybe } from "../missing/index.ts";
import type { Centimetre } from "../quantity/index.ts";

/** What was measured for the length, arm by arm: a surface tape belongs to the side it was laid on. */
export interface SideLengthInput {
  /** Where on the arm both tapes were laid from, from the medial epicondyle. */
  readonly tapeFromCm: Maybe<Centimetre>;
  /** Tape on the skin from that mark, along the arm, to the third right intercostal space. */
  readonly surfaceTapeCm: Maybe<Centimetre>;
  /** The same tape by a second person, entered without seeing the first. */
  readonly secondTapeCm: Maybe<Centimetre>;
  /** In-body length, vein entry to tip, of the last line in this arm whose tip was good. */
  readonly lastGoodLengthCm: Maybe<Centimetre>;
  /** Where that line entered its vein. */
  readonly lastGoodEntryCm: Maybe<Centimetre>;
}

export interface LengthInput {
  readonly sides: Readonly<Record<Side, SideLengthInput>>;
  /** Acromion to the sternal head of the clavicle, for the adult tape formula. */
  readonly clavicleCm: Maybe<Centimetre>;
  /** Sternal head to the tip of the xiphoid. */
  readonly sternumCm: Maybe<Centimetre>;
  /** Vein entry to the anterior axillary point, for the children's formulas. */
  readonly entryToAxillaryPointCm: Maybe<Centimetre>;
  /** Elbow crease to the medial epicondyle level, positive when the crease lies below it. */
  readonly creaseBelowEpicondyleCm: Maybe<Centimetre>;
  /** Catheter wanted outside the skin. */
  readonly outsideCm: Maybe<Centimetre>;
}
