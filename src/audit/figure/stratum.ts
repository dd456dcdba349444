import { isKnown, isMissing, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { ratioOf, type LineRow } from "../line/index.ts";
import { thirdOf } from "../measure/index.ts";
import { ratioIsPossible } from "../quality/index.ts";

/** By what a figure can be split. "inserter" is for the person and the trainer: no order is ever made of it. */
export const STRATA = [
  "ward",
  "size",
  "lumens",
  "vein",
  "third",
  "ratio band",
  "side",
  "attempts",
  "setting",
  "age band",
  "diagnosis",
  "inserter",
] as const;
export type StratumName = (typeof STRATA)[number];
export const PRIVATE_STRATA: readonly StratumName[] = ["inserter"];

/** The value of a row whose value is absent: a stratum of its own, so that the parts add up to the whole. */
export const NOT_KNOWN = "not known";

const PERCENT = 100;

/** "under 33.3", "33.3 to 45", "over 45": closed above, so that a line exactly at an edge is within it. */
export function ratioBand(ratio: number, edgesPercent: readonly number[]): string {
  const edges = edgesPercent.map((edge) => String(Math.round(edge * 10) / 10));
  const above = edgesPercent.filter((edge) => ratio * PERCENT > edge).length;
  if (above === 0) return `up to ${edges[0]} %`;
  if (above === edges.length) return `over ${edges.at(-1)} %`;
  return `${edges[above - 1]} to ${edges[above]} %`;
}

/** "under 1", "1 to 17", "80 and over": whole years, closed below. */
export function ageBand(years: number, edges: readonly number[]): string {
  const reached = edges.filter((edge) => years >= edge).length;
  if (reached === 0) return `under ${edges[0]}`;
  if (reached === edges.length) return `${edges.at(-1)} and over`;
  return `${edges[reached - 1]} to ${(edges[reached] as number) - 1}`;
}

const word = (value: Maybe<string | number>, unit = ""): string => (isMissing(value) ? NOT_KNOWN : `${value}${unit}`);

/** The stratum of a row. */
export function stratumOf(row: LineRow, by: StratumName, limits: CountLimits): string {
  switch (by) {
    case "ward":
      return word(row.ward);
    case "size":
      return word(row.sizeFr, " Fr");
    case "lumens":
      return word(row.lumens);
    case "vein":
      return word(row.vein);
    case "third":
      return word(thirdOf(row));
    case "ratio band": {
      const ratio = ratioOf(row);
      // C1: a ratio that cannot be is in no band
      return isKnown(ratio) && ratioIsPossible(row, limits) ? ratioBand(ratio, limits.ratioEdgesPercent) : NOT_KNOWN;
    }
    case "side":
      return word(row.side);
    case "attempts":
      return isKnown(row.attempts) && row.attempts >= 3 ? "3 or more" : word(row.attempts);
    case "setting":
      return word(row.setting);
    case "age band":
      return isKnown(row.ageYears) ? ageBand(row.ageYears, limits.ageEdgesYears) : NOT_KNOWN;
    case "diagnosis":
      return word(row.diagnosis);
    case "inserter":
      return word(row.inserter);
    default:
      return by satisfies never;
  }
}
