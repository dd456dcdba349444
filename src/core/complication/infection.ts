import { civilDateOf, midnightsBetween, type CivilDate, type Instant } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";

/** A dated definition of a bloodstream infection counted for surveillance; another year's rules are another entry. */
export interface SurveillanceDefinition {
  readonly name: string;
  readonly from: CivilDate;
  readonly source: string;
  /** Counts from this day in place, the day of placing being day 1. */
  readonly fromLineDay: number;
  readonly daysAfterRemoval: number;
  readonly feverAboveC: number;
  readonly coldBelowC: number;
  readonly infantUpToYears: number;
  readonly commensals: readonly string[];
}

export interface InfectionFacts {
  readonly placedAt: Instant;
  readonly removedAt: Instant | undefined;
  readonly eventOn: CivilDate;
  readonly organism: string | undefined;
  /** Separate blood samples that grew it, on the same day or the next. */
  readonly samples: Maybe<number>;
  readonly temperatureC: Maybe<number>;
  readonly signs: Maybe<readonly string[]>;
  readonly ageYears: Maybe<number>;
  readonly secondarySource: Maybe<boolean>;
}

export interface InfectionFlag {
  readonly flag: "yes" | "no" | "not known";
  readonly criteria: readonly Finding[];
}

/**
 * The surveillance flag: a line in place long enough on the day or the day before, an organism in the blood that is not
 * from another source, and for a skin organism a sign and two samples. It counts for the rate and decides no treatment.
 * Source: the definition's own; line day 3 to the day after removal, CDC FAQ on bloodstream infection events (seen).
 */
export function surveillanceFlag(facts: InfectionFacts, rule: SurveillanceDefinition): InfectionFlag {
  const lineDay = midnightsBetween(civilDateOf(facts.placedAt), facts.eventOn) + 1;
  const after = facts.removedAt ? midnightsBetween(civilDateOf(facts.removedAt), facts.eventOn) : 0;
  const criteria: Finding[] = [
    finding("surveillance-line-day", lineDay >= rule.fromLineDay ? "met" : "not met", undefined, {
      lineDay,
      from: rule.fromLineDay,
    }),
    finding("surveillance-after-removal", after <= rule.daysAfterRemoval ? "met" : "not met", undefined, {
      days: after,
      most: rule.daysAfterRemoval,
    }),
    finding("surveillance-organism", facts.organism ? "met" : "not known", undefined),
    finding(
      "surveillance-no-other-source",
      isMissing(facts.secondarySource) ? "not known" : facts.secondarySource ? "not met" : "met",
      undefined,
    ),
  ];
  if (facts.organism && isCommensal(facts.organism, rule)) {
    criteria.push(
      finding(
        "surveillance-two-samples",
        isMissing(facts.samples) ? "not known" : facts.samples >= 2 ? "met" : "not met",
        undefined,
      ),
      signCriterion(facts, rule),
    );
  }
  return { flag: flagOf(criteria), criteria };
}

function signCriterion(facts: InfectionFacts, rule: SurveillanceDefinition): Finding {
  const { temperatureC, signs, ageYears } = facts;
  const infant = !isMissing(ageYears) && ageYears <= rule.infantUpToYears;
  const hot = !isMissing(temperatureC) && temperatureC > rule.feverAboveC;
  const cold = infant && !isMissing(temperatureC) && temperatureC < rule.coldBelowC;
  const other = isMissing(signs)
    ? undefined
    : signs.some(
        (sign) =>
          ["chills", "low blood pressure"].includes(sign) || (infant && ["apnoea", "slow heart"].includes(sign)),
      );
  const met = hot || cold || other === true;
  const known = !isMissing(temperatureC) && other !== undefined;
  return finding("surveillance-sign", met ? "met" : known ? "not met" : "not known", undefined, {
    feverAboveC: rule.feverAboveC,
    coldBelowC: rule.coldBelowC,
  });
}

/** The organisms that live on skin, as the definition lists them; a name is matched by its beginning. */
export const isCommensal = (organism: string, rule: Pick<SurveillanceDefinition, "commensals">): boolean =>
  rule.commensals.some((name) => organism.trim().toLowerCase().startsWith(name.toLowerCase()));

const flagOf = (criteria: readonly Finding[]): InfectionFlag["flag"] =>
  criteria.some(({ verdict }) => verdict === "not met")
    ? "no"
    : criteria.every(({ verdict }) => verdict === "met")
      ? "yes"
      : "not known";

export interface ClinicalFacts {
  readonly signs: Maybe<readonly string[]>;
  readonly otherSource: Maybe<"none found" | "suspected" | "found">;
  readonly cultureTimes: "met" | "not met" | "indeterminate" | undefined;
  readonly pairedThreefold: Maybe<boolean>;
  readonly tipSameOrganism: Maybe<boolean>;
}

/**
 * The clinical flag: signs, no other source, and one of: differential time met, threefold count, the same organism on
 * the tip and in the blood. It is kept apart from surveillance; one event may be yes or no in any of the four ways.
 * Source: Mermel 2009, Clin Infect Dis 49:1.
 */
export function clinicalFlag(facts: ClinicalFacts): InfectionFlag {
  const laboratory = [
    facts.cultureTimes === undefined || facts.cultureTimes === "indeterminate"
      ? undefined
      : facts.cultureTimes === "met",
    isMissing(facts.pairedThreefold) ? undefined : facts.pairedThreefold,
    isMissing(facts.tipSameOrganism) ? undefined : facts.tipSameOrganism,
  ];
  const anyMet = laboratory.includes(true);
  const anyOpen = laboratory.includes(undefined);
  const criteria = [
    finding(
      "clinical-signs",
      isMissing(facts.signs) ? "not known" : facts.signs.length > 0 ? "met" : "not met",
      undefined,
    ),
    finding(
      "clinical-no-other-source",
      isMissing(facts.otherSource) || facts.otherSource === "suspected"
        ? "not known"
        : facts.otherSource === "found"
          ? "not met"
          : "met",
      undefined,
    ),
    finding("clinical-laboratory", anyMet ? "met" : anyOpen ? "not known" : "not met", undefined),
  ];
  return { flag: flagOf(criteria), criteria };
}

/** Redness at the exit by its reach from the exit: up to 2 cm the exit, beyond it along a tunnel the tunnel. */
export function exitSite(
  reachCm: number,
  tunnelled: boolean,
  withinCm: number,
): "exit site" | "tunnel" | "neither by definition" {
  if (reachCm <= withinCm) return "exit site";
  return tunnelled ? "tunnel" : "neither by definition";
}
