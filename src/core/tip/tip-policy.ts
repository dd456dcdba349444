import type { Centimetre } from "../quantity/index.ts";

/** One published distance from the carina down to the cavo-atrial junction. */
export interface JunctionSeries {
  readonly name: string;
  readonly source: string;
  readonly people: string;
  readonly howKnown: "published" | "from memory";
  /** In centimetres, or in vertebral units (one body and one disc), as the series printed it. */
  readonly centre: { readonly cm: number } | { readonly units: number };
  /** One standard deviation as printed; absent where the series printed none. */
  readonly sdCm?: number;
}

/** Children from an age in years: the distance in vertebral units. */
export interface ChildUnits {
  readonly fromYears: number;
  readonly units: number;
}

/** What local policy says of a film; the rows stand in src/policy/tip-rows.ts. */
export interface TipPolicy {
  readonly series: readonly JunctionSeries[];
  /** Names of the series whose central values count here. */
  readonly enabled: readonly string[];
  readonly childUnits: readonly ChildUnits[];
  readonly adultFromYears: number;
  /** One vertebral unit of an adult, where the film carries no scale of its own. */
  readonly unitCm: Centimetre;
  readonly armAway: { readonly meanCm: number; readonly leastCm: number; readonly mostCm: number };
  readonly filmOverReadsCm: number;
  readonly magnification: { readonly least: number; readonly most: number };
  readonly cavaLengthCm: number;
  readonly noiseCm: number;
  /** How far a child's tip moves with the arm, in rib spaces. */
  readonly childArm: { readonly meanSpaces: number; readonly mostSpaces: number };
  /** How far a newborn's basilic tip moves in for a degree that the arm comes in. */
  readonly newbornArm: {
    readonly perDegreeCm: number;
    readonly lowPerDegreeCm: number;
    readonly highPerDegreeCm: number;
  };
  /** Limits between two readers of one film. */
  readonly readers: { readonly lowCm: number; readonly highCm: number };
}
