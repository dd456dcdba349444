import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { Flag } from "./clinical-infection.ts";
import type { InfectionLimits, ThrombosisLimits } from "./complication-limits.ts";
import { organismKey } from "./culture-bottle.ts";

/** Criteria with who decides. There is no verdict in it: a person weighs them. */
export interface KeepOrRemove {
  readonly forRemoval: readonly Finding[];
  readonly forKeeping: readonly Finding[];
  readonly decides: "treating team with infection specialist" | "treating team with clot specialist";
}

export interface InfectedLine {
  readonly shockOrSevereSepsis: Maybe<boolean>;
  readonly septicThrombophlebitis: Maybe<boolean>;
  readonly endocarditis: Maybe<boolean>;
  readonly tunnelInfectionOrPus: Maybe<boolean>;
  /** Hours into the right treatment at which blood still grew; 0 when it no longer grows. */
  readonly stillGrowsAfterHours: Maybe<number>;
  readonly organism: Maybe<string>;
  readonly otherSource: Maybe<boolean>;
  /** The infection has been shown to come from the line. */
  readonly lineInfectionShown: Maybe<boolean>;
  readonly needed: Maybe<boolean>;
  readonly otherAccess: Maybe<boolean>;
}

const criterion = (
  code: string,
  fact: Maybe<boolean>,
  values: Finding["values"] = {},
  policy: string[] = [],
): Finding => {
  const flag: Flag = isMissing(fact) ? "not known" : fact ? "met" : "not met";
  return finding(code, flag, flag === "not known" ? "ask" : "note", values, { policy });
};

/** A fact turned round; a missing one stays missing. */
const not = (fact: Maybe<boolean>): Maybe<boolean> => (isMissing(fact) ? fact : !fact);

/**
 * The criteria for taking out, and for trying to keep, a line with an infection; the treating team and the infection
 * specialist decide.
 * Holds: one line; organisms by the policy's list. Source: Mermel LA and others 2009, Clin Infect Dis 49:1 (removal list
 * from memory); fever with another source and unproven infection, Chopra V and others 2015. Example: Staphylococcus
 * aureus: one criterion for removal met.
 */
export function infectionCriteria(
  line: InfectedLine,
  removalOrganisms: readonly string[],
  limits: InfectionLimits,
): KeepOrRemove {
  const { organism, stillGrowsAfterHours } = line;
  const listed = isMissing(organism)
    ? organism
    : removalOrganisms.map(organismKey).some((one) => organismKey(organism).startsWith(one));
  const grows = isMissing(stillGrowsAfterHours)
    ? stillGrowsAfterHours
    : stillGrowsAfterHours >= limits.treatedGrowthHours;
  const named = isMissing(organism) ? {} : { organism };
  return {
    forRemoval: [
      criterion("remove-shock", line.shockOrSevereSepsis),
      criterion("remove-septic-thrombophlebitis", line.septicThrombophlebitis),
      criterion("remove-endocarditis", line.endocarditis),
      criterion("remove-tunnel-or-pus", line.tunnelInfectionOrPus),
      criterion("remove-still-grows", grows, { hours: limits.treatedGrowthHours }, ["complication.treated-growth"]),
      criterion("remove-organism", listed, named),
      criterion("remove-not-needed", not(line.needed)),
    ],
    forKeeping: [
      criterion("keep-other-source", line.otherSource),
      criterion("keep-infection-not-shown", not(line.lineInfectionShown)),
      criterion("keep-no-other-access", not(line.otherAccess)),
      criterion("keep-lock-may-be-tried", not(listed), { fromDays: limits.lockFromDays, toDays: limits.lockToDays }, [
        "complication.lock-days",
      ]),
    ],
    decides: "treating team with infection specialist",
  };
}

export interface ClottedLine {
  readonly needed: Maybe<boolean>;
  readonly working: Maybe<boolean>;
  readonly infected: Maybe<boolean>;
  readonly symptomsPersistOnTreatment: Maybe<boolean>;
  readonly bleedingBarsTreatment: Maybe<boolean>;
}

/**
 * The criteria for taking out, and for keeping, a line with a clot; the treating team and the clot specialist decide. What
 * guidelines say about the length of treatment stands beside both.
 * Holds: a clot shown by imaging. Source: Rajasekhar A and Streiff MB 2017, Blood 129:2727; Chopra V and others 2015.
 * Example: needed, working, no infection: every criterion for keeping met, none for removal.
 */
export function clotCriteria(line: ClottedLine, limits: ThrombosisLimits): KeepOrRemove {
  const treatment = { months: limits.anticoagulateMonths };
  const policy = ["complication.anticoagulate"];
  return {
    forRemoval: [
      criterion("remove-not-needed-finish-treatment", not(line.needed), treatment, policy),
      criterion("remove-infected", line.infected),
      criterion("remove-symptoms-persist", line.symptomsPersistOnTreatment),
      criterion("remove-bleeding-bars", line.bleedingBarsTreatment),
    ],
    forKeeping: [
      criterion("keep-needed", line.needed, treatment, policy),
      criterion("keep-working", line.working),
      criterion("keep-not-infected", not(line.infected)),
    ],
    decides: "treating team with clot specialist",
  };
}
