import { normalQuantile } from "../../core/distribution/index.ts";
import {
  firthPoisson,
  logFPoisson,
  mixedPoisson,
  poissonRegression,
  type CountFit,
  type CountInput,
  type Unfitted,
} from "../../core/regression/index.ts";
import { NOT_KNOWN, stratumOf, watchedLines, type AuditRules, type Period } from "../figure/index.ts";
import type { AuditTable, LineRow } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { rowAt } from "../packed/index.ts";
import {
  askFactors,
  factorRatio,
  factorValues,
  type EventsPerParameter,
  type FactorRatio,
  type FactorsRefused,
} from "./factor-model.ts";
import { FACTORS, type FactorName } from "./factors.ts";

export type SharedBy = "ward" | "patient";

/** What wards, or patients, differ by beyond the factors and chance. */
export type SharedRate =
  | {
      readonly kind: "fitted";
      readonly by: SharedBy;
      readonly groups: number;
      /** Standard deviation of the logarithm of the rate. */
      readonly spread: number;
      /** Within one ward or patient; limits from the errors, the spread taken as known. */
      readonly ratios: readonly FactorRatio[];
    }
  | { readonly kind: "no spread"; readonly by: SharedBy; readonly groups: number }
  | { readonly kind: "no fit"; readonly by: SharedBy };

export interface RateModel {
  readonly method: "Poisson" | "Poisson with Firth's penalty" | "Poisson with a log-F prior";
  readonly guard: EventsPerParameter;
  readonly separated: boolean;
  readonly ratios: readonly FactorRatio[];
  readonly events: number;
  readonly days: number;
  readonly clock: string;
  readonly used: number;
  readonly given: number;
  readonly shared?: SharedRate;
}

export type RateAnswer =
  | ({ readonly kind: "fitted" } & RateModel)
  | (FactorsRefused & { readonly used: number; readonly given: number })
  | (Unfitted & { readonly used: number; readonly given: number });

interface Watched {
  readonly row: LineRow;
  readonly days: number;
  readonly events: number;
}

/**
 * Ratios of the rate of a period for some factors, each line with its own days; lines with a factor unknown are left out.
 *   log mean = log days + x b; below the first policy limit of events per factor: none; below the second, or where a
 *   factor parts all events from the rest: Firth's penalty; a log-F prior takes the place of both where it is asked for
 *   shared: beside it the same with a normal deviation of each ward or patient (`mixedPoisson`)
 * Units: ratio per step of the factor. Holds: an event measure with a clock, else RangeError. Source: as the functions
 * named; Firth D 1993, Biometrika 80:27 (from memory). Example: reference/independent/count/rate-model.test.ts.
 */
export function rateModel(
  table: AuditTable,
  measure: Measure,
  period: Period,
  factors: readonly FactorName[],
  { limits, surveillance }: AuditRules,
  asked: { readonly shared?: SharedBy; readonly priorDegrees?: number } = {},
): RateAnswer {
  const watched = exposedLines(table, measure, period, { limits, surveillance });
  const known = watched.flatMap((line) => {
    const values = factorValues(line.row, factors, limits);
    return values ? [{ ...line, values }] : [];
  });
  // who shares a deviation has to be known by name
  const rows = asked.shared === "ward" ? known.filter(({ row }) => wardOf(row, limits) !== NOT_KNOWN) : known;
  const sum = (of: "events" | "days") => rows.reduce((all, row) => all + row[of], 0);
  const counts = { used: rows.length, given: watched.length };
  const events = sum("events");
  const may = askFactors(watched, factors, events, limits);
  if (may.kind !== "may") return { ...may, ...counts };
  const { guard } = may;
  const input: CountInput = {
    count: rows.map((row) => row.events),
    exposure: rows.map((row) => row.days),
    covariates: factors.map((name, j) => ({ name, values: rows.map(({ values }) => values[j] as number) })),
  };
  const { priorDegrees } = asked;
  const plain = priorDegrees !== undefined || guard.verdict === "penalise" ? undefined : poissonRegression(input);
  const penalised = plain === undefined || plain.kind === "separated";
  const fit = priorDegrees === undefined ? (penalised ? firthPoisson(input) : plain) : logFPoisson(input, priorDegrees);
  if (fit.kind !== "fitted") return { ...fit, ...counts };
  const shared = asked.shared;
  return {
    kind: "fitted",
    method:
      priorDegrees !== undefined
        ? "Poisson with a log-F prior"
        : penalised
          ? "Poisson with Firth's penalty"
          : "Poisson",
    guard,
    separated: plain?.kind === "separated",
    ratios: factors.map((factor, j) =>
      factorRatio(
        factor,
        // the intercept stands first
        fit.coefficients[j + 1] as CountFit["coefficients"][number],
        fit.profile(factor, limits.level),
      ),
    ),
    events,
    days: sum("days"),
    clock: measure.clock,
    ...counts,
    ...(shared && {
      shared: sharedRate(
        { ...input, cluster: groupsOf(rows, ({ row }) => (shared === "ward" ? wardOf(row, limits) : row.patient)) },
        factors,
        shared,
        limits.level,
      ),
    }),
  };
}

const wardOf = (row: LineRow, limits: AuditRules["limits"]): string => stratumOf(row, "ward", limits);

/** Every line with a day in the period, with its days and its events there; events on no day of their own line count not. */
function exposedLines(table: AuditTable, measure: Measure, period: Period, rules: AuditRules): readonly Watched[] {
  const { facts, lines, daysOf, eventLines } = watchedLines(table, measure, period, rules);
  const events = new Map<number, number>();
  for (const line of eventLines) events.set(line, (events.get(line) ?? 0) + 1);
  return Array.from(lines).flatMap((line) => {
    const days = daysOf(line);
    return days > 0 ? [{ row: rowAt(facts.lines, line), days, events: events.get(line) ?? 0 }] : [];
  });
}

function groupsOf(rows: readonly Watched[], nameOf: (row: Watched) => string): readonly number[] {
  const places = new Map<string, number>();
  return rows.map((row) => {
    const name = nameOf(row);
    const place = places.get(name) ?? places.size;
    places.set(name, place);
    return place;
  });
}

function sharedRate(
  input: Parameters<typeof mixedPoisson>[0],
  factors: readonly FactorName[],
  by: SharedBy,
  level: number,
): SharedRate {
  const groups = new Set(Array.from(input.cluster)).size;
  const fit = mixedPoisson(input);
  if (fit.kind === "no spread") return { kind: "no spread", by, groups };
  if (fit.kind !== "fitted") return { kind: "no fit", by };
  const z = normalQuantile((1 + level) / 2);
  return {
    kind: "fitted",
    by,
    groups,
    spread: fit.spread,
    ratios: factors.map((factor, j) => {
      const { value, standardError } = fit.coefficients[j + 1] as (typeof fit.coefficients)[number];
      return {
        factor,
        step: FACTORS[factor].step,
        logRatio: value,
        standardError,
        ratio: Math.exp(value),
        lower: Math.exp(value - z * standardError),
        upper: Math.exp(value + z * standardError),
      };
    }),
  };
}
