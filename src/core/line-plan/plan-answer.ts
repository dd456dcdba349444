import type { ArmBand, Side, Tunnel, Vein } from "../arm/index.ts";
import type { RatioJudgement } from "../catheter/index.ts";
import type { Centimetre, Degree, Millimetre } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";

/** met: every rule met; ask: at least one rule at its limit or a question open; refused: a rule is not met. */
export type CandidateStanding = "met" | "ask" | "refused";

/** One way to place the line, judged by every rule. */
export interface Candidate {
  readonly side: Side;
  readonly vein: Vein;
  readonly veinEntryCm: Centimetre;
  /** Where the needle goes in. */
  readonly needleSkinCm: Centimetre;
  /** Where the catheter leaves the skin: the needle's entry, or the tunnel's exit. */
  readonly skinExitCm: Centimetre;
  readonly skinBand: { readonly fromCm: Centimetre; readonly toCm: Centimetre };
  readonly armBand: ArmBand;
  readonly angleDegree: Degree;
  readonly depthMm: Millimetre;
  readonly diameterMm: Millimetre;
  readonly diameterSdMm: Millimetre;
  readonly trackMm: Millimetre;
  readonly runToBackWallMm: Millimetre | undefined;
  readonly measured: boolean;
  readonly catheterId: string;
  readonly outsideDiameterMm: Millimetre;
  readonly ratio: RatioJudgement;
  readonly tunnel: Tunnel | undefined;
  readonly standing: CandidateStanding;
  readonly findings: readonly Finding[];
}

/** One catheter of the shelf held against the vein at the chosen entry. */
export interface ShelfJudgement {
  readonly catheterId: string;
  readonly outsideDiameterMm: Millimetre;
  /** One judgement for each mark of the policy, the local limit among them. */
  readonly marks: readonly (RatioJudgement & { readonly limit: number })[];
  /** Whether its label carries the stated need. */
  readonly carriesNeed: "yes" | "no" | "label does not say";
}

/** The stretch of vein entries that stand as well as the chosen one. */
export interface AllowedInterval {
  readonly fromCm: Centimetre;
  readonly toCm: Centimetre;
}

/** What is offered when nothing fits, in the order it is offered. */
export type Offer =
  | {
      readonly kind: "smaller catheter";
      readonly largestOutsideDiameterMm: Millimetre;
      readonly side: Side;
      readonly vein: Vein;
    }
  | { readonly kind: "survey another vein"; readonly side: Side; readonly veins: readonly Vein[] }
  | { readonly kind: "survey the other arm"; readonly side: Side }
  | { readonly kind: "tunnel from the upper third"; readonly side: Side; readonly vein: Vein }
  | { readonly kind: "another kind of device" };

export interface PlanAnswer {
  /** planned: every rule met; ask: a question is open; refused: a stop stands or nothing fits. */
  readonly outcome: "planned" | "ask" | "refused";
  readonly chosen: Candidate | undefined;
  /** Other candidates that tie with the chosen one on every ranked point but the arm. */
  readonly tied: readonly Candidate[];
  readonly allowed: AllowedInterval | undefined;
  /** The two best of every arm and vein, best first, the chosen one left out. */
  readonly alternatives: readonly Candidate[];
  readonly shelf: readonly ShelfJudgement[];
  /** What was found about the whole plan: identity, age, weight, arms, need. */
  readonly findings: readonly Finding[];
  /** When nothing fits: the rule that empties the list, as the code of its finding. */
  readonly emptiedBy: string | undefined;
  readonly offers: readonly Offer[];
  readonly notConsidered: readonly string[];
}

/** The choice in its shortest form: two plans with the same choice send the same hands to the same vein. */
export interface PlanChoice {
  readonly outcome: PlanAnswer["outcome"];
  readonly side?: Side;
  readonly vein?: Vein;
  readonly catheterId?: string;
  readonly tunnelled?: boolean;
}

export const choiceOf = (answer: PlanAnswer): PlanChoice =>
  answer.chosen
    ? {
        outcome: answer.outcome,
        side: answer.chosen.side,
        vein: answer.chosen.vein,
        catheterId: answer.chosen.catheterId,
        tunnelled: answer.chosen.tunnel !== undefined,
      }
    : { outcome: answer.outcome };

export const sameChoice = (a: PlanChoice, b: PlanChoice): boolean =>
  a.outcome === b.outcome &&
  a.side === b.side &&
  a.vein === b.vein &&
  a.catheterId === b.catheterId &&
  a.tunnelled === b.tunnelled;
