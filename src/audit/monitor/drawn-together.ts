import { shrinkRates, shrinkShares } from "../../core/shrinkage/index.ts";
import type { Figure } from "../figure/index.ts";
import type { Measure } from "../measure/index.ts";

export interface DrawnGroup {
  readonly value: string;
  /** Per 1000 days, or a share of one: the group's own, and drawn towards the others. */
  readonly raw: number;
  readonly drawn: number;
  /** How much of the drawn figure is the group's own. */
  readonly ownWeight: number;
}

export type DrawnTogether =
  | { readonly kind: "drawn"; readonly by: string; readonly groups: readonly DrawnGroup[] }
  /** Groups that differ no more than chance share one figure. */
  | { readonly kind: "alike"; readonly by: string; readonly common: number; readonly groups: number };

const PER = 1000;

/**
 * The figures of a measure by group, each drawn towards the others by as much as its group is small.
 *   events over days by `shrinkRates`, lines of lines by `shrinkShares`
 * No limits are given: wards are few, and with few groups the limits of one drawn figure are much too narrow.
 * Units: per 1000 days, or share of one. Holds: two groups or more of one stratum with days or lines and an event among them,
 * else undefined. Source: as the two functions. Example: test/specification/drawn-together.test.ts.
 */
export function drawnTogether(figures: readonly Figure[], measure: Measure, by: string): DrawnTogether | undefined {
  const usable = figures.flatMap(({ measure: id, stratum, numerator, denominator, interval }) =>
    id === measure.id &&
    stratum?.by === by &&
    denominator !== undefined &&
    denominator > 0 &&
    !/none/.test(interval.name)
      ? [{ value: stratum.value, count: numerator, over: denominator }]
      : [],
  );
  const count = usable.map((group) => group.count);
  const over = usable.map((group) => group.over);
  const [events, all] = [count, over].map((values) => values.reduce((a, b) => a + b, 0)) as [number, number];
  if (usable.length < 2 || events === 0) return undefined;
  const isRate = measure.numerator.count === "events";
  if (!isRate && events === all) return undefined;
  const found = isRate ? ratesOf(count, over) : sharesOf(count, over);
  if (found === "all or none") return undefined;
  if (typeof found === "number") return { kind: "alike", by, common: found, groups: usable.length };
  return {
    kind: "drawn",
    by,
    groups: found.map((group, at) => {
      const { value, count: own, over: size } = usable[at] as (typeof usable)[number];
      return { value, raw: ((isRate ? PER : 1) * own) / size, ...group };
    }),
  };
}

type Drawn = Omit<DrawnGroup, "value" | "raw">;

function ratesOf(count: readonly number[], exposure: readonly number[]): readonly Drawn[] | number {
  const found = shrinkRates({ count, exposure });
  if (found.kind !== "shrunk") return PER * found.pooled;
  return found.units.map(({ mean, ownWeight }) => ({ drawn: PER * mean, ownWeight }));
}

function sharesOf(count: readonly number[], number: readonly number[]): readonly Drawn[] | number | "all or none" {
  const found = shrinkShares({ count, number });
  if (found.kind === "all or none") return found.kind;
  if (found.kind === "no excess spread") return found.pooled;
  return found.units.map(({ mean, ownWeight }) => ({ drawn: mean, ownWeight }));
}
