import type { Minute } from "../quantity/index.ts";
import type { ChartFault } from "./chart-fault.ts";

/** Never "smallest" unless proven: then no other times or lumens do better, by a search that left nothing out. */
export type ProofStatus = "proven" | "best found, not proven";

/** One dose on its lumen, the same on every day it is active. */
export interface PlacedDose {
  readonly infusionId: string;
  readonly chartedMin: Minute;
  /** Clock time the drug starts, minutes after midnight. */
  readonly startMin: Minute;
  /** Signed: below 0 is earlier. */
  readonly movedMin: Minute;
  /** From 1. */
  readonly lumen: number;
  /** The dose with its flushes, from minutes after midnight; runs past midnight when from + for is over 24 h. */
  readonly occupiedFromMin: Minute;
  readonly occupiedForMin: Minute;
}

/** Why one lumen fewer is not enough. */
export interface LumenProof {
  /** These infusions alone already need every lumen of the answer. */
  readonly infusionIds: readonly string[];
  /** Leave any one of them out and fewer lumens carry the others. False when the search was stopped while reducing. */
  readonly irreducible: boolean;
  /** Pairs among them whose compatibility is unknown: knowing one might change the answer. */
  readonly unknownPairs: readonly (readonly [string, string])[];
}

export interface LumenAnswer {
  readonly lumens: number;
  readonly status: ProofStatus;
  /** Proven: never fewer than this. Equal to `lumens` when proven. */
  readonly atLeast: number;
  readonly doses: readonly PlacedDose[];
  /** Present when proven. */
  readonly proof?: LumenProof;
}

/** The answer after moving doses within their tolerance: fewest lumens, then fewest doses moved, then least minutes moved. */
export interface RetimedAnswer extends LumenAnswer {
  readonly dosesMoved: number;
  readonly totalMovedMin: Minute;
  /** Of the moves, for this many lumens. */
  readonly movesStatus: ProofStatus;
  readonly atLeastMoved: number;
}

/** What an offer would do, without a word on whether to do it. */
export interface LumenOffer {
  readonly kind: "peripheral cannula" | "gap in a cyclic bag" | "oral switch";
  readonly infusionId: string;
  /** False: the chart does not say that it could be, so that has to be asked first. */
  readonly known: boolean;
  /** Lumens that then suffice, after re-timing. */
  readonly lumens: number;
  /** False when the search was stopped: fewer may suffice. */
  readonly settled: boolean;
}

export interface FewestLumens {
  readonly kind: "answered";
  readonly asCharted: LumenAnswer;
  readonly retimed: RetimedAnswer;
  readonly offers: readonly LumenOffer[];
  /** Every pair not in the table, dedicated infusions aside: each was kept apart as if incompatible. */
  readonly unknownPairs: readonly (readonly [string, string])[];
}

export interface ChartRefused {
  readonly kind: "refused";
  readonly faults: readonly ChartFault[];
}
