import { finding, type Finding } from "../reason/index.ts";

export interface InfectedLine {
  readonly unstable: boolean | undefined;
  readonly tunnelOrPus: boolean | undefined;
  readonly clotInfected: boolean | undefined;
  readonly endocarditis: boolean | undefined;
  readonly cultures72hIntoTreatment: boolean | undefined;
  readonly organismGroup: string | undefined;
  readonly stillNeeded: boolean | undefined;
  readonly otherAccess: boolean | undefined;
}

/**
 * What speaks for taking an infected line out and what for trying to keep it: criteria and who decides, never a verdict.
 * Source: Mermel 2009, Clin Infect Dis 49:1 (organism rules from memory).
 */
export function infectedLineCriteria(line: InfectedLine): readonly Finding[] {
  const criterion = (code: string, stands: boolean | undefined) =>
    finding(code, stands === undefined ? "not known" : stands ? "met" : "not met", undefined);
  return [
    criterion("out-unstable", line.unstable),
    criterion("out-tunnel-or-pus", line.tunnelOrPus),
    criterion("out-infected-clot", line.clotInfected),
    criterion("out-endocarditis", line.endocarditis),
    criterion("out-cultures-after-72-h", line.cultures72hIntoTreatment),
    criterion("out-organism", line.organismGroup === undefined ? undefined : line.organismGroup !== "other"),
    criterion("keep-still-needed", line.stillNeeded),
    criterion("keep-no-other-access", line.otherAccess === undefined ? undefined : !line.otherAccess),
  ];
}

export interface ClottedLine {
  readonly working: boolean | undefined;
  readonly stillNeeded: boolean | undefined;
  readonly infected: boolean | undefined;
  readonly symptomsPersist: boolean | undefined;
  readonly bleedingBarsTreatment: boolean | undefined;
}

/**
 * A clot round a line: a working, needed, uninfected one usually stays with at least three months of anticoagulation or
 * as long as it is in. Criteria and who decides, never a verdict.
 * Source: Blood 2017;129:2727 and Hematology 2012:638 (reviews of catheter-related thrombosis).
 */
export function clottedLineCriteria(line: ClottedLine): readonly Finding[] {
  const criterion = (code: string, stands: boolean | undefined) =>
    finding(code, stands === undefined ? "not known" : stands ? "met" : "not met", undefined);
  return [
    criterion("keep-working", line.working),
    criterion("keep-still-needed", line.stillNeeded),
    criterion("out-infected-clot", line.infected),
    criterion("out-symptoms-persist", line.symptomsPersist),
    criterion("out-bleeding-bars-treatment", line.bleedingBarsTreatment),
  ];
}

/**
 * Constans score for a clot of the arm: catheter or pacing lead +1, local pain +1, one-sided oedema +1, another diagnosis
 * at least as likely -1. 0 or less low, 1 middle, 2 or 3 high. A PICC gives 1 from the start.
 * Source: Constans 2008, Thromb Haemost 99:202 (score; year from memory). Example: a PICC with oedema is 2.
 */
export function constansScore(signs: {
  readonly catheter: boolean;
  readonly pain: boolean;
  readonly oedema: boolean;
  readonly otherLikely: boolean;
}): {
  readonly score: number;
  readonly chance: "low" | "middle" | "high";
} {
  const score = Number(signs.catheter) + Number(signs.pain) + Number(signs.oedema) - Number(signs.otherLikely);
  return { score, chance: score <= 0 ? "low" : score === 1 ? "middle" : "high" };
}

/** Colonies on a tip that count as colonisation: more than 15 by roll-plate, more than 100 by sonication. Mermel 2009. */
export const tipColonised = (
  colonies: number,
  method: "roll-plate" | "sonication",
  limit: { readonly rollPlate: number; readonly sonication: number },
): boolean => colonies > (method === "roll-plate" ? limit.rollPlate : limit.sonication);
