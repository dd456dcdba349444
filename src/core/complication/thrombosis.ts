import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { ThrombosisLimits } from "./complication-limits.ts";

export interface ClotFacts {
  readonly catheterOrLead: Maybe<boolean>;
  readonly localPain: Maybe<boolean>;
  readonly oneSidedOedema: Maybe<boolean>;
  readonly otherDiagnosisAsLikely: Maybe<boolean>;
}

export interface ClotScore {
  /** Least and most that the missing answers leave; equal when all are known. */
  readonly least: number;
  readonly most: number;
  readonly band: "low" | "middle" | "high" | undefined;
  /** Clots found in each hundred of that band. */
  readonly percent: number | undefined;
}

/** Share of each band that had a clot, and the score it ends at. */
const BANDS = [
  { band: "low", to: 0, percent: 12 },
  { band: "middle", to: 1, percent: 20 },
  { band: "high", to: 3, percent: 70 },
] as const;

/**
 * Score of an arm-vein clot: catheter or lead, local pain and one-sided oedema add one each, another diagnosis as likely
 * takes one away.
 *   0 or less low (12 %), 1 middle (20 %), 2 and 3 high (70 %)
 * Holds: adults with a suspicion; a line gives 1 from the start. A missing answer widens the score, it is not a no.
 * Source: Constans J and others 2008, Thromb Haemost 99:202. Example: line and oedema: 2, high.
 */
export function clotScore(facts: ClotFacts): ClotScore {
  const parts = [
    [facts.catheterOrLead, 1],
    [facts.localPain, 1],
    [facts.oneSidedOedema, 1],
    [facts.otherDiagnosisAsLikely, -1],
  ] as const;
  let least = 0;
  let most = 0;
  for (const [fact, points] of parts) {
    least += isMissing(fact) ? Math.min(0, points) : fact ? points : 0;
    most += isMissing(fact) ? Math.max(0, points) : fact ? points : 0;
  }
  const bandOf = (score: number) => BANDS.find(({ to }) => score <= to);
  const [low, high] = [bandOf(least), bandOf(most)];
  return low !== undefined && low === high
    ? { least, most, band: low.band, percent: low.percent }
    : { least, most, band: undefined, percent: undefined };
}

export const D_DIMERS = ["normal", "raised", "not done"] as const;
export type DDimer = (typeof D_DIMERS)[number];

/**
 * What the score and the symptoms say about imaging. A score alone, without any symptom, asks for no scan.
 * Holds: one arm. Source: Kleinjan A and others 2014, Ann Intern Med 160:451 (from memory): 2 and above is imaged, below it D-dimer.
 * Example: line only, no symptom: no scan for the score alone.
 */
export function judgeClotSuspicion(
  facts: ClotFacts,
  symptoms: Maybe<boolean>,
  dDimer: Maybe<DDimer>,
  limits: ThrombosisLimits,
): { readonly score: ClotScore; readonly findings: readonly Finding[] } {
  const score = clotScore(facts);
  const values = { least: score.least, most: score.most, likelyFrom: limits.likelyFrom };
  const policy = ["complication.clot-likely-from"];
  const say = (code: string, verdict: Finding["verdict"], level: Finding["level"]) => ({
    score,
    findings: [finding(code, verdict, level, values, { policy })],
  });
  const anySign = facts.localPain === true || facts.oneSidedOedema === true || symptoms === true;
  if (!anySign && isMissing(symptoms)) return say("clot-symptoms-not-asked", "not known", "ask");
  if (!anySign) return say("clot-no-symptom", "met", "note");
  if (score.least >= limits.likelyFrom) return say("clot-likely-image", "not met", "ask");
  if (score.most >= limits.likelyFrom) return say("clot-score-open", "not known", "ask");
  if (isMissing(dDimer) || dDimer === "not done") return say("clot-d-dimer-or-image", "not known", "ask");
  return dDimer === "normal"
    ? say("clot-excluded-by-d-dimer", "met", "note")
    : say("clot-d-dimer-raised", "not met", "ask");
}
