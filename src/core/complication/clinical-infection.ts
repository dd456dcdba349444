import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CultureOutcome } from "./differential-time.ts";

/** A flag of three: not known is neither yes nor no. */
export type Flag = "met" | "not met" | "not known";

export interface ClinicalInfectionFacts {
  /** Fever, chills or low blood pressure. */
  readonly signs: Maybe<boolean>;
  readonly otherSource: Maybe<boolean>;
  readonly bloodGrew: Maybe<boolean>;
  readonly differential: Maybe<CultureOutcome>;
  /** Three-fold criterion of the paired counts. */
  readonly quantitative: Maybe<Flag>;
  /** Tip colonised with the organism of the peripheral blood. */
  readonly tipSameOrganism: Maybe<boolean>;
}

export interface InfectionFlag {
  readonly flag: Flag;
  readonly findings: readonly Finding[];
}

/**
 * Catheter-related bloodstream infection, the clinical flag: signs, growth in blood, no other source, and one of three
 * proofs that it came from the catheter. Kept apart from surveillance; the treating team decides.
 *   met when all four are met; not met when one is not met; else not known
 * Holds: one episode. Source: Mermel LA and others 2009, Clin Infect Dis 49:1. Example: all met but every proof
 * indeterminate: not known.
 */
export function judgeClinicalInfection(facts: ClinicalInfectionFacts): InfectionFlag {
  const criteria = [
    criterion("clinical-signs", facts.signs),
    criterion("clinical-blood-grew", facts.bloodGrew),
    criterion("clinical-no-other-source", isMissing(facts.otherSource) ? facts.otherSource : !facts.otherSource),
  ];
  const proofs = [
    finding("clinical-proof-time", outcomeFlag(facts.differential), "note"),
    finding("clinical-proof-count", isMissing(facts.quantitative) ? "not known" : facts.quantitative, "note"),
    criterion("clinical-proof-tip", facts.tipSameOrganism),
  ];
  const proof = anyMet(proofs.map(({ verdict }) => verdict as Flag));
  const flag = allMet([...criteria.map(({ verdict }) => verdict as Flag), proof]);
  return { flag, findings: [...criteria, ...proofs] };
}

const criterion = (code: string, fact: Maybe<boolean>): Finding =>
  isMissing(fact) ? finding(code, "not known", "ask") : finding(code, fact ? "met" : "not met", "note");

function outcomeFlag(outcome: Maybe<CultureOutcome>): Flag {
  if (isMissing(outcome) || outcome === "indeterminate") return "not known";
  return outcome === "criterion met" ? "met" : "not met";
}

/** Met if one is; not met only if all are; else not known. */
export const anyMet = (flags: readonly Flag[]): Flag =>
  flags.includes("met") ? "met" : flags.every((one) => one === "not met") ? "not met" : "not known";

/** Not met if one is not; met only if all are; else not known. */
export const allMet = (flags: readonly Flag[]): Flag =>
  flags.includes("not met") ? "not met" : flags.every((one) => one === "met") ? "met" : "not known";
