import type { Side, VeinSurvey } from "../../core/arm/index.ts";
import type { Candidate, PastLine, PlanAnswer, PlanPolicy } from "../../core/line-plan/index.ts";
import type { Centimetre } from "../../core/quantity/index.ts";
import type { Ink } from "../plate/index.ts";

/** Everything the plate of one arm shows, already computed; the drawing decides nothing. */
export interface ArmStripInput {
  /** Prefix of every id in the drawing; two plates on one page need two. */
  readonly id: string;
  /** Width the drawing is given, in px; it is drawn for that width, not shrunk to it. */
  readonly width: number;
  readonly armLengthCm: Centimetre;
  /** RIGHT ARM or LEFT ARM. */
  readonly armWords: string;
  readonly veinWords: string;
  /** The chosen vein as measured. */
  readonly survey: VeinSurvey | undefined;
  readonly chosen: Candidate | undefined;
  readonly allowed: PlanAnswer["allowed"];
  readonly policy: PlanPolicy;
  /** Lines this arm carried before, in any vein. */
  readonly pastLines: readonly PastLine[];
  /** Which arm; taken from the chosen place where it is not given. */
  readonly side?: Side;
  /** Next best places; those on this arm are drawn dashed. */
  readonly alternatives?: readonly Candidate[];
  /** Adds a layer of press targets, each with data-entry-cm, 57 px high along the vein. */
  readonly interactive?: boolean;
  /** The page's colours unless another ink is given. */
  readonly ink?: Ink;
  /** Tallest drawing that is wanted, in px of the drawing; paper has less room than a page. */
  readonly depthRoom?: number;
}
