import type { StockCatheter } from "../catheter/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import type { LineNeed } from "./plan-input.ts";

export type CarriesNeed = "yes" | "no" | "label does not say";

/** What of the stated need one catheter's label leaves open, and whether the label denies it. */
export interface NeedJudgement {
  readonly carries: CarriesNeed;
  /** The parts of the need the label does not answer. */
  readonly open: readonly ("flow" | "blood" | "contrast")[];
}

/**
 * Holds a catheter's label against the need. The label decides; nothing is worked out from the French size.
 * A part of the need that is missing is not held against the catheter: it is asked about once, for the whole plan.
 */
export function judgeNeed(catheter: StockCatheter, need: LineNeed): NeedJudgement {
  if (!isMissing(need.lumens) && catheter.lumens < need.lumens) return { carries: "no", open: [] };
  const parts = [
    ["flow", atLeast(catheter.flowLabelMlPerHour, need.flowMlPerHour)],
    ["blood", need.blood === true ? catheter.bloodByLabel : true],
    ["contrast", atLeast(catheter.contrastLabelMlPerSecond, need.contrastMlPerSecond)],
  ] as const;
  if (parts.some(([, answer]) => answer === false)) return { carries: "no", open: [] };
  const open = parts.filter(([, answer]) => isMissing(answer)).map(([part]) => part);
  return { carries: open.length === 0 ? "yes" : "label does not say", open };
}

function atLeast(label: Maybe<number>, wanted: Maybe<number>): Maybe<boolean> {
  if (isMissing(wanted) || wanted === 0) return true;
  return isMissing(label) ? label : label >= wanted;
}
