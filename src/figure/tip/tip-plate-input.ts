import type { Side } from "../../core/arm/index.ts";
import type { TipPlace } from "../../core/tip/index.ts";

/** One published target, cm below the carina, with the ends of its spread where the source prints one. */
export interface PlateTarget {
  readonly name: string;
  readonly cm: number;
  readonly lowCm?: number | undefined;
  readonly highCm?: number | undefined;
  /** Enabled by local policy. */
  readonly counted: boolean;
  /** The one that sets the withdrawal. */
  readonly sets: boolean;
}

interface Drawn {
  readonly id: string;
  /** Arm the catheter comes from; undefined where nobody said: then no course is drawn. */
  readonly side: Side | undefined;
  readonly armWords: string;
  /** The sentence of the film, said under the plate and to a screen reader. */
  readonly sentence: string;
  /** Mean length of the adult cava and of the way from carina to junction, for the borders drawn. */
  readonly cavaCm: number;
  readonly junctionCm: number;
  /** Greys for paper; the page's own colours otherwise. */
  readonly grey?: boolean;
  /** Drawn for a hand-held screen: the middle of the chest, larger letters. */
  readonly narrow?: boolean;
}

/** A tip on the way: depth, doubt, targets, withdrawal. Every number is drawn to one scale. */
export interface TipOnTheWay extends Drawn {
  readonly kind: "on the way";
  readonly depthCm: number;
  readonly doubtCm: { readonly low: number; readonly high: number } | undefined;
  readonly targets: readonly PlateTarget[];
  /** In full precision, and as shown; undefined where nothing is withdrawn. */
  readonly withdrawCm: number | undefined;
  readonly shownCm: number | undefined;
}

/** A tip whose place is known and nothing more may be said: its place and no number. The type has no field that could hold one. */
export interface TipElsewhere extends Drawn {
  readonly kind: "elsewhere";
  readonly place: TipPlace;
  /** Why no number stands there, in words. */
  readonly why: string;
}

export type TipPlateInput = TipOnTheWay | TipElsewhere;
