import { fullBayesRates, rankChances, shrinkRates, shrinkShares } from "../../core/shrinkage/index.ts";
import { PRIVATE_STRATA, type Figure, type StratumName } from "../figure/index.ts";
import type { Measure } from "../measure/index.ts";

export interface DrawnGroup {
  readonly value: string;
  /** Per 1000 days, or a share of one: the group's own, and drawn towards the others. */
  readonly raw: number;
  readonly drawn: number;
  /** How much of the drawn figure is the group's own, were the spread between groups known. */
  readonly ownWeight: number;
}

/** A drawn rate with its limits, the doubt about how far groups differ counted in. */
export interface LimitedGroup {
  readonly value: string;
  readonly drawn: number;
  readonly lower: number;
  readonly upper: number;
  /** Chance that its true rate is the highest of all; of wards only. */
  readonly highest: number | undefined;
}

/** A group's own share with its own exact limits: not drawn. */
export interface OwnShare {
  readonly value: string;
  readonly count: number;
  readonly over: number;
  readonly lower: number;
  readonly upper: number;
}

export type DrawnTogether = (
  | { readonly kind: "drawn"; readonly by: string; readonly groups: readonly DrawnGroup[] }
  /** Groups that differ no more than chance share one figure. */
  | { readonly kind: "alike"; readonly by: string; readonly common: number; readonly groups: number }
) & {
  /** Of rates; undefined for shares, and for people, who are never set beside each other with limits. */
  readonly limited?: readonly LimitedGroup[];
  /** Of shares; undefined for rates, whose drawn figures have limits, and for people. */
  readonly alone?: readonly OwnShare[];
};

const PER = 1000;
/**
 * The prior of George, Makov and Smith 1993 for the shape; their rate's is laid on the scale of the pooled rate, so that
 * minutes or days as a unit give the same answer. Simulated limits keep their 95 in 100 (reference/by-hand/count).
 */
const PRIOR = { shapeMean: 1, rateShape: 0.1, rateRate: 0.1 } as const;

/**
 * The figures of a measure by group, each drawn towards the others by as much as its group is small.
 *   events over days by `shrinkRates`, lines of lines by `shrinkShares`
 * The limits of those two are much too narrow while groups are few (simulated: 79 to 95 in 100 for five wards) and are not
 * given. Rates are limited by `fullBayesRates`, whose drawn figure is told then; a drawn share has none, and its group's own
 * exact limits stand beside it (Clopper and Pearson 1934, Biometrika 26:404).
 * Units: per 1000 days, or share of one. Holds: two groups or more of one stratum with days or lines and an event among them,
 * else undefined. Source: as the two functions. Example: test/specification/drawn-together.test.ts.
 */
export function drawnTogether(
  figures: readonly Figure[],
  measure: Measure,
  by: StratumName,
  level: number,
): DrawnTogether | undefined {
  const usable = figures.flatMap(({ measure: id, stratum, numerator, denominator, interval }) =>
    id === measure.id &&
    stratum?.by === by &&
    denominator !== undefined &&
    denominator > 0 &&
    !/none/.test(interval.name)
      ? [{ value: stratum.value, count: numerator, over: denominator, limits: interval.limits }]
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
  const limits = PRIVATE_STRATA.includes(by)
    ? {}
    : isRate
      ? { limited: limitedOf(usable, by === "ward", level) }
      : { alone: usable.flatMap(({ limits: own, ...group }) => (own ? [{ ...group, ...own }] : [])) };
  if (typeof found === "number") return { kind: "alike", by, common: found, groups: usable.length, ...limits };
  return {
    kind: "drawn",
    by,
    ...limits,
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

/** Exposures are told as events expected at the pooled rate, and rates as multiples of it. */
function limitedOf(
  units: readonly { readonly value: string; readonly count: number; readonly over: number }[],
  isWard: boolean,
  level: number,
): readonly LimitedGroup[] {
  const [events, days] = (["count", "over"] as const).map((of) => units.reduce((all, unit) => all + unit[of], 0)) as [
    number,
    number,
  ];
  const pooled = events / days;
  const found = fullBayesRates(
    { count: units.map(({ count }) => count), exposure: units.map(({ over }) => over * pooled) },
    PRIOR,
    { level },
  ).units;
  // a gamma of the same mean and spread stands for each posterior: the doubt between groups is in its width
  const places = isWard
    ? rankChances(
        found.map(({ mean, standardDeviation }) => ({
          shape: (mean / standardDeviation) ** 2,
          rate: mean / standardDeviation ** 2,
        })),
      )
    : [];
  return found.map(({ mean, lower, upper }, at) => ({
    value: (units[at] as (typeof units)[number]).value,
    drawn: PER * pooled * mean,
    lower: PER * pooled * lower,
    upper: PER * pooled * upper,
    highest: places[at]?.ofPlace[0],
  }));
}
