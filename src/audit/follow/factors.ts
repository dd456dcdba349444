import { isKnown, missing, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ratioOf, type LineRow } from "../line/index.ts";
import { ratioIsPossible } from "../quality/index.ts";

type Limits = Pick<CountLimits, "ratioPossible" | "ratioAgrees">;

/** Factors a model can be asked for, each in a step that means something at the arm. */
export const FACTORS = {
  lumens: { step: "per lumen", of: ({ lumens }) => lumens },
  size: { step: "per French", of: ({ sizeFr }) => sizeFr },
  ratio: { step: "per 5 points of catheter over vein", of: (row, limits) => scaled(believedRatio(row, limits), 20) },
  position: { step: "per tenth of the arm towards the armpit", of: ({ positionShare }) => scaled(positionShare, 10) },
  age: { step: "per 10 years", of: ({ ageYears }) => scaled(ageYears, 0.1) },
  attempts: { step: "more than one attempt", of: ({ attempts }) => flag(attempts, (tries) => tries > 1) },
  left: { step: "left arm", of: ({ side }) => flag(side, (arm) => arm === "left arm") },
  home: { step: "looked after at home", of: ({ setting }) => flag(setting, (place) => place === "home") },
  cancer: { step: "cancer", of: ({ diagnosis }) => flag(diagnosis, (group) => group.endsWith("cancer")) },
} as const satisfies Readonly<
  Record<string, { readonly step: string; readonly of: (row: LineRow, limits: Limits) => Maybe<number> }>
>;

export type FactorName = keyof typeof FACTORS;
export const FACTOR_NAMES = Object.keys(FACTORS) as readonly FactorName[];

/** A ratio that C1 holds is not known, as in every other figure. */
const believedRatio = (row: LineRow, limits: Limits): Maybe<number> =>
  ratioIsPossible(row, limits) ? ratioOf(row) : missing("not known");
const scaled = (value: Maybe<number>, by: number): Maybe<number> => (isKnown(value) ? value * by : value);
const flag = <Value>(value: Maybe<Value>, holds: (known: Value) => boolean): Maybe<number> =>
  isKnown(value) ? Number(holds(value)) : value;
