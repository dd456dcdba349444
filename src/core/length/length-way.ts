import type { HowKnown } from "../reason/index.ts";
import type { Centimetre } from "../quantity/index.ts";

export type LengthWayName =
  | "surface tape"
  | "second tape"
  | "adult tape formula"
  | "children's height formula"
  | "children's simple formula"
  | "newborns' length formula"
  | "last good line";

/** Where a way ends. Ways to different points are never averaged. */
export type LengthTarget =
  | "third right intercostal space"
  | "junction of cava and atrium"
  | "carina"
  | "upper cava"
  | "subclavian vein to upper cava"
  | "as last time";

/**
 * What a way is good for.
 *   length      ends where the tip is wanted: it takes part in the length
 *   cross-check ends at another known point: it may contradict the length, and never sets it
 *   shown       ends at no one point: for the eye only
 */
export type LengthUse = "length" | "cross-check" | "shown";

interface WayFacts {
  readonly target: LengthTarget;
  readonly use: LengthUse;
  readonly population: string;
  readonly howKnown: HowKnown;
  readonly source: string;
}

export const lengthWayFacts: Readonly<Record<LengthWayName, WayFacts>> = {
  "surface tape": {
    target: "third right intercostal space",
    use: "length",
    population: "all ages",
    howKnown: "common practice",
    source: "no source",
  },
  "second tape": {
    target: "third right intercostal space",
    use: "length",
    population: "all ages",
    howKnown: "common practice",
    source: "no source",
  },
  "adult tape formula": {
    target: "junction of cava and atrium",
    use: "length",
    population: "55 adults",
    howKnown: "published",
    source: "Korean J Anesthesiol 2018, doi 10.4097/kja.d.18.27185",
  },
  "children's height formula": {
    target: "carina",
    use: "cross-check",
    population: "103 children",
    howKnown: "published",
    source: "Ota H and others 2022",
  },
  "children's simple formula": {
    target: "subclavian vein to upper cava",
    use: "shown",
    population: "47 children",
    howKnown: "published",
    source: "Ota H and others 2022",
  },
  "newborns' length formula": {
    target: "upper cava",
    use: "cross-check",
    population: "newborns",
    howKnown: "published",
    source: "Pediatr Neonatol 2019, formulas by site",
  },
  "last good line": {
    target: "as last time",
    use: "length",
    population: "this patient",
    howKnown: "common practice",
    source: "no source",
  },
};

/** One way to the length in the vein: entry to where this way ends. */
export interface LengthWay extends WayFacts {
  readonly way: LengthWayName;
  readonly fromVeinEntryCm: Centimetre;
}

/** A way whose measures were typed, in part or in full, and that still gives no length here. */
export interface LengthWayNotUsed {
  readonly way: LengthWayName;
  readonly reason: "for-adults-only" | "for-children-only" | "measure-missing" | "no-length-left";
}
