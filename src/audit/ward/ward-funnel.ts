import { binomialAtLeast } from "../../core/distribution/index.ts";
import {
  limitsAmong,
  limitsWidened,
  overdispersion,
  tailsAmong,
  tailsWidened,
  targetScore,
  type Overdispersion,
  type TailLimits,
} from "../../core/shrinkage/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { NOT_KNOWN, type Figure } from "../figure/index.ts";
import type { Measure } from "../measure/index.ts";

/** Limits of a count over so many days, as rates per 1000: the inner pair and the outer one. */
export interface FunnelLimits {
  readonly days: number;
  readonly inner: TailLimits;
  readonly outer: TailLimits;
}

export interface WardPoint extends FunnelLimits {
  readonly ward: string;
  readonly events: number;
  readonly perThousand: number;
  readonly expected: number;
  /** Expects too few to be judged: drawn only. */
  readonly judged: boolean;
  readonly stands: "above" | "below" | "within";
  /** Beyond the outer limit as well. */
  readonly far: boolean;
  /** Chance of a count at least or at most so far out were all wards alike; widened where the funnel is. */
  readonly chance: number;
  /** Chance that this ward would have stood above the inner limit had its rate been twice that of the others. */
  readonly doublingSeen: number;
}

export interface WardFunnel {
  readonly measure: string;
  readonly clock: string;
  readonly events: number;
  readonly days: number;
  readonly perThousand: number;
  /** Shares below and above the two pairs of limits. */
  readonly tails: { readonly inner: number; readonly outer: number };
  /** By days, the fewest first; never by rate. */
  readonly wards: readonly WardPoint[];
  /** Of the judged wards; the funnel is widened where it says so. */
  readonly spread: Overdispersion;
  /** Wards that chance alone would put outside the inner limits, on average. */
  readonly byChance: number;
  /** Limits from few days to many, for a drawing: those of chance alone, and widened where wards differ more. */
  readonly curve: readonly FunnelLimits[];
  readonly wideCurve: readonly FunnelLimits[];
  /** Of lines whose ward nobody wrote: in no point and in no limit. */
  readonly withoutWard: { readonly events: number; readonly days: number };
}

const PER = 1000;
const STEPS = 48;

/**
 * Wards against each other: each ward's rate over its days, with the limits that chance alone keeps to were all alike.
 *   given all events, a ward's are binomial by its share of the days: exact, the common rate drops out (`limitsAmong`)
 *   from `funnelWideFrom` judged wards on and with spread beyond its threshold: `limitsWidened` by the additive variance
 * Units: per 1000 days of the measure's clock. Holds: an event measure split by ward, two wards with days and one event
 * among them, else undefined. A ward that expects fewer than `funnelLeast` is drawn and not judged. People never come here.
 * Source: as the functions named; Spiegelhalter DJ 2005, Stat Med 24:1185. Example: test/specification/ward-funnel.test.ts.
 */
export function wardFunnel(
  figures: readonly Figure[],
  measure: Measure,
  limits: Pick<CountLimits, "funnelShares" | "funnelLeast" | "funnelWideFrom" | "funnelWinsorise">,
): WardFunnel | undefined {
  if (measure.numerator.count !== "events") return undefined;
  const split = figures.flatMap(({ measure: id, stratum, numerator, denominator }) =>
    id === measure.id && stratum?.by === "ward" && denominator !== undefined && denominator > 0
      ? [{ ward: stratum.value, events: numerator, days: denominator }]
      : [],
  );
  const own = split.filter(({ ward }) => ward !== NOT_KNOWN).sort((a, b) => a.days - b.days);
  const without = split.find(({ ward }) => ward === NOT_KNOWN);
  const sum = (of: "events" | "days") => own.reduce((all, ward) => all + ward[of], 0);
  const [events, days] = [sum("events"), sum("days")];
  if (own.length < 2 || events === 0) return undefined;
  const tails = tailsOf(limits.funnelShares);
  const expected = (time: number) => (events * time) / days;
  const judged = own.filter(({ days: time }) => expected(time) >= limits.funnelLeast);
  const spread = spreadOf(
    judged.map((ward) => ({ events: ward.events, expected: expected(ward.days) })),
    limits,
  );
  const among = (time: number) => limitsAt(time, tails, (tail) => limitsAmong(events, time / days, tail));
  const wide = (time: number) => limitsAt(time, tails, (tail) => limitsWidened(expected(time), spread.between, tail));
  const points = own.map(({ ward, events: seen, days: time }): WardPoint => {
    const { asManyOrMore, asFewOrFewer } = spread.widen
      ? tailsWidened(seen, expected(time), spread.between)
      : tailsAmong(seen, events, time / days);
    const chance = Math.min(asManyOrMore, asFewOrFewer);
    const isJudged = expected(time) >= limits.funnelLeast;
    return {
      ward,
      events: seen,
      perThousand: (PER * seen) / time,
      expected: expected(time),
      ...(spread.widen ? wide(time) : among(time)),
      judged: isJudged,
      stands: !isJudged || chance > tails.inner ? "within" : asManyOrMore < asFewOrFewer ? "above" : "below",
      far: isJudged && chance <= tails.outer,
      chance,
      doublingSeen: doublingSeen(events, time / days, tails.inner),
    };
  });
  const longest = (own.at(-1) as (typeof own)[number]).days;
  const shortest = Math.min((own[0] as (typeof own)[number]).days, longest / STEPS);
  // closer together where the days are few: there the limits bend
  const along = Array.from({ length: STEPS + 1 }, (_, at) => shortest + (longest - shortest) * (at / STEPS) ** 2);
  return {
    measure: measure.id,
    clock: measure.clock,
    events,
    days,
    perThousand: (PER * events) / days,
    tails,
    wards: points,
    spread,
    byChance: judged.reduce(
      (all, { days: time }) => all + falselyOutside(events, time / days, tails.inner, spread, expected(time)),
      0,
    ),
    curve: along.map(among),
    wideCurve: spread.widen ? along.map(wide) : [],
    withoutWard: { events: without?.events ?? 0, days: without?.days ?? 0 },
  };
}

/** The policy gives four rising shares; a pair keeps its whole chance of falling outside, split evenly on both sides. */
function tailsOf(shares: readonly number[]): WardFunnel["tails"] {
  const [least, low, high, most] = shares as [number, number, number, number];
  return { inner: (low + (1 - high)) / 2, outer: (least + (1 - most)) / 2 };
}

function limitsAt(
  days: number,
  tails: WardFunnel["tails"],
  counts: (tail: number) => TailLimits,
): { readonly days: number; readonly inner: TailLimits; readonly outer: TailLimits } {
  const rate = (count: number | undefined) => (count === undefined ? undefined : (PER * count) / days);
  const pair = (tail: number): TailLimits => {
    const { lower, upper } = counts(tail);
    return { lower: rate(lower), upper: rate(upper) };
  };
  return { days, inner: pair(tails.inner), outer: pair(tails.outer) };
}

/** Pearson's scores on the scale of the ratio to the expectation, so that their extra variance is that of the ratio. */
function spreadOf(
  units: readonly { readonly events: number; readonly expected: number }[],
  { funnelWideFrom, funnelWinsorise }: Pick<CountLimits, "funnelWideFrom" | "funnelWinsorise">,
): Overdispersion {
  if (units.length === 0) return { dispersion: 0, threshold: 1, widen: false, between: 0 };
  return overdispersion(
    units.map(({ events, expected }) => targetScore(events, expected, "Pearson")),
    units.map(({ expected }) => 1 / Math.sqrt(expected)),
    { winsorise: funnelWinsorise, fewest: funnelWideFrom },
  );
}

/** The first count above the inner limit, and the chance of reaching it at twice the rate of the others. */
function doublingSeen(all: number, share: number, tail: number): number {
  const { upper } = limitsAmong(all, share, tail);
  return upper === undefined ? 0 : binomialAtLeast(Math.ceil(upper), all, (2 * share) / (1 + share));
}

/** Chance that a ward like all others stands outside the inner limits: below twice the tail, for counts are whole. */
function falselyOutside(all: number, share: number, tail: number, spread: Overdispersion, expected: number): number {
  const { lower, upper } = spread.widen ? limitsWidened(expected, spread.between, tail) : limitsAmong(all, share, tail);
  const tailsAt = (count: number) =>
    spread.widen ? tailsWidened(count, expected, spread.between) : tailsAmong(count, all, share);
  return (
    (upper === undefined ? 0 : tailsAt(Math.ceil(upper)).asManyOrMore) +
    (lower === undefined ? 0 : tailsAt(Math.floor(lower)).asFewOrFewer)
  );
}
