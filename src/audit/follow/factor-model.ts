import { isKnown } from "../../core/missing/index.ts";
import { eventsPerParameter } from "../../core/regression/index.ts";
import type { AuditRules } from "../figure/index.ts";
import type { LineRow } from "../line/index.ts";
import { FACTORS, type FactorName } from "./factors.ts";

export type EventsPerParameter = ReturnType<typeof eventsPerParameter>;

/** How many times one step of a factor multiplies a rate or a hazard, with limits that a profile gave. */
export interface FactorRatio {
  readonly factor: FactorName;
  readonly step: string;
  readonly logRatio: number;
  readonly standardError: number;
  readonly ratio: number;
  readonly lower: number;
  readonly upper: number;
}

/** A coefficient and the limits of its profile, both on the log scale, as a ratio. */
export const factorRatio = (
  factor: FactorName,
  { value, standardError }: { readonly value: number; readonly standardError: number },
  { low, high }: { readonly low: number; readonly high: number },
): FactorRatio => ({
  factor,
  step: FACTORS[factor].step,
  logRatio: value,
  standardError,
  ratio: Math.exp(value),
  lower: Math.exp(low),
  upper: Math.exp(high),
});

/** Why some factors have no model: a finding to be told, not a fault. */
export type FactorsRefused =
  | {
      readonly kind: "too few events";
      readonly guard: EventsPerParameter;
      /** Factors that so many events could carry. */
      readonly mostFactors: number;
      readonly least: number;
      readonly events: number;
    }
  | {
      /** Factors missing in so many lines that a model of several would speak of a chosen few. */
      readonly kind: "too much missing";
      readonly factors: readonly { readonly factor: FactorName; readonly missing: number; readonly of: number }[];
    };

/** What a line says of every factor asked for; undefined where one of them is not known. */
export function factorValues(
  row: LineRow,
  factors: readonly FactorName[],
  limits: AuditRules["limits"],
): readonly number[] | undefined {
  const values = factors.map((factor) => FACTORS[factor].of(row, limits)).filter((value) => isKnown(value));
  return values.length === factors.length ? values : undefined;
}

/**
 * Whether some factors may have a model of so many events, and how it is to be read.
 *   a factor missing in more than `missingMost`, and more than one factor: none, for nothing is imputed
 *   below the first policy limit of events per factor: none; below the second: to be penalised
 * Units: events, lines. Source: as `eventsPerParameter`. Example: test/specification/guards.test.ts.
 */
export function askFactors(
  lines: readonly { readonly row: LineRow }[],
  factors: readonly FactorName[],
  events: number,
  limits: Pick<AuditRules["limits"], "missingMost" | "eventsPerParameter" | "ratioPossible" | "ratioAgrees">,
): FactorsRefused | { readonly kind: "may"; readonly guard: EventsPerParameter } {
  const of = lines.length;
  const lacking = factors.flatMap((factor) => {
    const gone = lines.filter(({ row }) => !isKnown(FACTORS[factor].of(row, limits))).length;
    return gone > limits.missingMost * of ? [{ factor, missing: gone, of }] : [];
  });
  if (factors.length > 1 && lacking.length > 0) return { kind: "too much missing", factors: lacking };
  const [refuse, penalise] = limits.eventsPerParameter as [number, number];
  const guard = eventsPerParameter(events, factors.length, {
    refuseBelow: refuse,
    penaliseBelow: penalise,
    cautionBelow: penalise * 2,
  });
  if (guard.verdict !== "refuse") return { kind: "may", guard };
  return { kind: "too few events", guard, mostFactors: Math.floor(events / refuse), least: refuse, events };
}
