import { chiSquareTail, normalQuantile } from "../../core/distribution/index.ts";
import {
  coxRegression,
  firthCox,
  logFCox,
  sharedFrailty,
  type Concordance,
  type CoxFit,
  type FrailtyInput,
  type Unfitted,
} from "../../core/regression/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import {
  askFactors,
  factorRatio,
  factorValues,
  type EventsPerParameter,
  type FactorRatio,
  type FactorsRefused,
} from "./factor-model.ts";
import { type FactorName } from "./factors.ts";
import type { FollowedLines } from "./time-to-event.ts";

export interface HazardRatio extends FactorRatio {
  /** By patient: lines of one person hang together. Absent in a penalised fit. */
  readonly robustError: number | undefined;
}

/** What patients differ by beyond the factors: a share of the hazard that all lines of one patient have in common. */
export type SharedByPatient =
  | {
      readonly kind: "fitted";
      readonly patients: number;
      /** Of what multiplies a patient's hazard, about a mean of one; zero where they differ no more than by chance. */
      readonly variance: number;
      /** Chance of so large a gain were there no difference. */
      readonly chance: number;
      /** For one patient; limits from the errors, on the log scale. */
      readonly ratios: readonly {
        readonly factor: FactorName;
        readonly ratio: number;
        readonly lower: number;
        readonly upper: number;
      }[];
    }
  | { readonly kind: "lines came late" }
  | { readonly kind: "no fit" };

export interface HazardAsked {
  /** Whether lines of one patient share a part of their hazard. */
  readonly sharedByPatient?: boolean;
  /** Degrees of a log-F prior on every factor, in place of Firth's penalty. */
  readonly priorDegrees?: number;
}

export interface HazardModel {
  readonly method: "Cox, Efron ties" | "Cox with Firth's penalty, Breslow ties" | "Cox with a log-F prior, Efron ties";
  readonly guard: EventsPerParameter;
  /** Some combination of factors held all events or none, so that plain likelihood has no end: penalised for that. */
  readonly separated: boolean;
  readonly ratios: readonly HazardRatio[];
  readonly events: number;
  readonly used: number;
  readonly given: number;
  /** Chance of so large a departure were all hazards proportional; undefined with too few events or a penalised fit. */
  readonly proportional: number | undefined;
  /** Of two lines, whether the one with the higher hazard has the event first; error by patient. */
  readonly concordance: Concordance;
  /** By Uno's weights; undefined where lines came late. */
  readonly unoConcordance: Concordance | undefined;
  readonly shared?: SharedByPatient;
}

export type HazardAnswer =
  | ({ readonly kind: "fitted" } & HazardModel)
  | (FactorsRefused & { readonly used: number; readonly given: number })
  | (Unfitted & { readonly used: number; readonly given: number });

const FEWEST_FOR_PROPORTIONS = 20;

/**
 * Hazard ratios of the event for some factors; lines with any of them unknown are left out and counted.
 *   a factor missing in more than `missingMost`, and more than one factor: none, for nothing is imputed
 *   below the first policy limit of events per parameter: none; below the second: Firth's penalty; else Efron's ties;
 *   a log-F prior takes the place of both where it is asked for
 * Units: ratio per step of the factor. Holds: hazards proportional. Source: Cox 1972; Heinze and Schemper 2001; Lin and Wei
 * 1989. Example: reference/independent/count.
 */
export function hazardModel(
  followed: FollowedLines,
  factors: readonly FactorName[],
  limits: CountLimits,
  asked: HazardAsked = {},
): HazardAnswer {
  const rows = followed.lines.flatMap(({ row }, at) => {
    const values = factorValues(row, factors, limits);
    return values ? [{ at, values, patient: row.patient }] : [];
  });
  const events = rows.filter(({ at }) => followed.follow.end[at] === 1).length;
  const counts = { used: rows.length, given: followed.given };
  const may = askFactors(followed.lines, factors, events, limits);
  if (may.kind !== "may") return { ...may, ...counts };
  const { guard } = may;
  const people = new Map<string, number>();
  const input = {
    ...(followed.delayed ? { entry: rows.map(({ at }) => followed.follow.entry[at] as number) } : {}),
    exit: rows.map(({ at }) => followed.follow.exit[at] as number),
    event: rows.map(({ at }) => Number(followed.follow.end[at] === 1)),
    covariates: factors.map((name, j) => ({ name, values: rows.map(({ values }) => values[j] as number) })),
    cluster: rows.map(({ patient }) => {
      const known = people.get(patient) ?? people.size;
      people.set(patient, known);
      return known;
    }),
  };
  const { priorDegrees } = asked;
  const plain = priorDegrees !== undefined || guard.verdict === "penalise" ? undefined : coxRegression(input);
  const penalised = plain === undefined || plain.kind === "separated";
  const fit = priorDegrees === undefined ? (penalised ? firthCox(input) : plain) : logFCox(input, priorDegrees);
  if (fit.kind !== "fitted") return { ...fit, ...counts };
  return {
    kind: "fitted",
    method:
      priorDegrees !== undefined
        ? "Cox with a log-F prior, Efron ties"
        : penalised
          ? "Cox with Firth's penalty, Breslow ties"
          : "Cox, Efron ties",
    guard,
    separated: plain?.kind === "separated",
    ratios: factors.map((factor, j) => ratioFor(fit, factor, j, limits.level)),
    events,
    ...counts,
    proportional: events >= FEWEST_FOR_PROPORTIONS ? departure(fit) : undefined,
    concordance: fit.concordance(),
    unoConcordance: fit.unoConcordance(),
    ...(asked.sharedByPatient === true
      ? { shared: followed.delayed ? { kind: "lines came late" as const } : sharedFor(input, factors, limits.level) }
      : {}),
  };
}

function sharedFor(input: FrailtyInput, factors: readonly FactorName[], level: number): SharedByPatient {
  const fit = sharedFrailty(input);
  if (fit.kind !== "fitted") return { kind: "no fit" };
  const z = normalQuantile((1 + level) / 2);
  return {
    kind: "fitted",
    patients: fit.clusters,
    variance: fit.frailtyVariance,
    // a variance cannot fall below zero: half the time there is no gain at all
    chance: fit.frailtyVariance > 0 ? chiSquareTail("upper", fit.statistic, 1) / 2 : 1,
    ratios: factors.map((factor, j) => {
      const { value, standardError } = fit.coefficients[j] as (typeof fit.coefficients)[number];
      const reach = z * standardError;
      return { factor, ratio: Math.exp(value), lower: Math.exp(value - reach), upper: Math.exp(value + reach) };
    }),
  };
}

function departure(fit: CoxFit): number | undefined {
  const all = fit.proportional?.().all;
  // events all at one time leave no trend over time to test
  return all && !Number.isNaN(all.statistic) ? chiSquareTail("upper", all.statistic, all.degreesOfFreedom) : undefined;
}

function ratioFor(fit: CoxFit, factor: FactorName, j: number, level: number): HazardRatio {
  const coefficient = fit.coefficients[j] as CoxFit["coefficients"][number];
  return { ...factorRatio(factor, coefficient, fit.profile(factor, level)), robustError: coefficient.robustError };
}
