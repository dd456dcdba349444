import { binomialAtLeast } from "../../core/distribution/index.ts";
import { isKnown, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { LineFacts, LineRow } from "../line/index.ts";
import { thirdOf } from "../measure/index.ts";

export const EXPOSURES = [
  "ward",
  "setting",
  "lot",
  "catheter",
  "inserter",
  "size",
  "vein",
  "third",
  "diagnosis",
] as const;
export type Exposure = (typeof EXPOSURES)[number];

/** One value that lines of a cluster share, beside how usual it was among the lines in place then. */
export interface SharedExposure {
  readonly exposure: Exposure;
  readonly value: string;
  readonly inCluster: number;
  readonly clusterKnown: number;
  readonly inAll: number;
  readonly allKnown: number;
  /** P(so many or more of the cluster) were the cluster drawn from all lines in place. */
  readonly chance: number;
  /** The same after counting every exposure and value that was looked at: never above 1. */
  readonly chanceAfterLooking: number;
}

export interface SharedExposures {
  /** Values shared by two or more lines, the least likely first. A person is named here only to be asked. */
  readonly shared: readonly SharedExposure[];
  readonly lookedAt: number;
  /** Values that would come out under the policy's chance though nothing is shared. */
  readonly byCoincidence: number;
  /** Under the policy's chance even after all that was looked at. */
  readonly named: readonly SharedExposure[];
}

const READ: Readonly<Record<Exposure, (row: LineRow) => Maybe<string | number>>> = {
  ward: ({ ward }) => ward,
  setting: ({ setting }) => setting,
  lot: ({ lot }) => lot,
  catheter: ({ catheter }) => catheter,
  inserter: ({ inserter }) => inserter,
  size: ({ sizeFr }) => sizeFr,
  vein: ({ vein }) => vein,
  third: thirdOf,
  diagnosis: ({ diagnosis }) => diagnosis,
};

/**
 * What the lines of a cluster have in common, with a warning on coincidence.
 *   chance = P(Binomial(n, B / N) >= a), a of n cluster lines and B of N lines in place having the value
 *   after looking = min(1, values looked at x chance); by coincidence = values looked at x the policy's chance
 * Units: chance. Holds: a cluster of two lines or more; a smaller one shares nothing. Lines with the value unknown are
 * left out of both counts. Source: binomial; the correction for looking is Bonferroni's (from memory).
 * Example: 4 of 4 on a ward that has 20 of 100 lines: 0.0016; among 30 values looked at 0.048.
 */
export function sharedExposures(
  cluster: readonly LineFacts[],
  present: readonly LineFacts[],
  limits: Pick<CountLimits, "sharedChance">,
): SharedExposures {
  const looked = EXPOSURES.flatMap((exposure) => {
    const values = (lines: readonly LineFacts[]) =>
      lines.flatMap(({ row }) => {
        const value = READ[exposure](row);
        return isKnown(value) ? [String(value)] : [];
      });
    const [own, all] = [values(cluster), values(present)];
    return [...new Set(own)].map((value) => {
      const inCluster = own.filter((one) => one === value).length;
      const inAll = all.filter((one) => one === value).length;
      const share = all.length > 0 ? inAll / all.length : 1;
      const chance = binomialAtLeast(inCluster, own.length, share);
      return { exposure, value, inCluster, clusterKnown: own.length, inAll, allKnown: all.length, chance };
    });
  });
  const lookedAt = looked.length;
  const shared = looked
    .filter(({ inCluster }) => inCluster >= 2)
    .map((one) => ({ ...one, chanceAfterLooking: Math.min(1, lookedAt * one.chance) }))
    .sort((a, b) => a.chance - b.chance);
  return {
    shared,
    lookedAt,
    byCoincidence: lookedAt * limits.sharedChance,
    named: shared.filter(({ chanceAfterLooking }) => chanceAfterLooking < limits.sharedChance),
  };
}
