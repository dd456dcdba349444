import type { CivilDate } from "../calendar/index.ts";
import type { SurveillanceRule } from "../dwell/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";

/** The sub-class of an injured mucosal barrier as data. */
export interface MucosalDefinition {
  /** Gut organisms, by name or its beginning; of a pathogen's event all that grew are among them. */
  readonly organisms: readonly string[];
  /** Commensals of the mouth, for an event of commensals. */
  readonly commensals: readonly string[];
  /** White cells or neutrophils per cubic millimetre below this are few. */
  readonly cellsBelow: number;
  /** Days with few, and where they may lie around the specimen. */
  readonly daysBelow: number;
  readonly cellDaysBefore: number;
  readonly cellDaysAfter: number;
  /** A transplant counts for so many days. */
  readonly transplantWithinDays: number;
  /** Diarrhoea began at most so many days before the specimen. */
  readonly gutDaysBefore: number;
}

/** The surveillance definition of one time as data: the counting rule, its signs and its organisms. */
export interface SurveillanceDefinition extends SurveillanceRule {
  /** A temperature above this is fever. */
  readonly feverAboveCelsius: number;
  /** A temperature below this counts in an infant. */
  readonly hypothermiaBelowCelsius: number;
  /** An infant is this old or younger. */
  readonly infantToYears: number;
  /** Days that two specimens of one commensal may lie apart. */
  readonly commensalDaysApart: number;
  readonly organisms: {
    /** Names, or the beginnings of names: "candida" covers every species. */
    readonly pathogens: readonly string[];
    /** Organisms that never make the event, whatever grew. */
    readonly excluded: readonly string[];
    /** A commensal's group name with the species it covers. */
    readonly commensals: readonly { readonly name: string; readonly covers: readonly string[] }[];
  };
  /** When an event is one of an injured mucosal barrier, and reported apart. */
  readonly mucosal: MucosalDefinition;
}

export type InfectionSign =
  | { readonly kind: "temperature"; readonly celsius: number; readonly on: CivilDate }
  | { readonly kind: "chills" | "hypotension" | "apnoea" | "bradycardia"; readonly on: CivilDate };

export type SignCounts = "at any age" | "in an infant" | "no" | "not known";

/**
 * Whether a sign counts beside a commensal: fever, chills and low blood pressure at any age; low temperature, apnoea and a
 * slow heart in an infant only.
 * Holds: without an age an infant's sign is not known. Source: CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4,
 * table 1. Example: an infant at 36.5 with a limit of 36.0: no.
 */
export function signCounts(
  sign: InfectionSign,
  ageYears: Maybe<number>,
  definition: SurveillanceDefinition,
): SignCounts {
  if (sign.kind === "chills" || sign.kind === "hypotension") return "at any age";
  if (sign.kind === "temperature") {
    if (sign.celsius > definition.feverAboveCelsius) return "at any age";
    if (sign.celsius >= definition.hypothermiaBelowCelsius) return "no";
  }
  if (isMissing(ageYears)) return "not known";
  return ageYears <= definition.infantToYears ? "in an infant" : "no";
}
