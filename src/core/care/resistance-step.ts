import { instantAfter, minutesBetween, type Instant } from "../calendar/index.ts";
import { isKnown, isMissing, type Maybe } from "../missing/index.ts";
import type { Centimetre } from "../quantity/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { RemovalLimits } from "./care-limits.ts";

/** What was tried with a catheter that does not come out; each with what followed. */
export interface ResistanceAnswers {
  readonly withdrawnCm: Maybe<Centimetre>;
  readonly rePositioned: boolean;
  readonly heatedAt: Maybe<Instant>;
  readonly dressedAt: Maybe<Instant>;
  readonly retriedAfterRest: boolean;
}

export type ResistanceStepCode =
  | "stop and re-position"
  | "heat and a warm drink"
  | "wait for the heat"
  | "dress and leave"
  | "leave it dressed"
  | "try again"
  | "image";

export interface ResistanceStep {
  readonly step: ResistanceStepCode;
  /** When the wait is over; for the retry, from and to. */
  readonly fromAt?: Instant;
  readonly toAt?: Instant;
  readonly findings: readonly Finding[];
}

/**
 * The one next step with a catheter that is stuck: stop, re-position, heat along the vein, dress and retry later, image.
 * Force is no step of it.
 * Holds: the tip still inside. Source: teaching module on difficult removals (university nursing faculty, undated).
 * Example: stuck with 6 cm out: think of a clot; the first step is to stop and re-position.
 */
export function nextResistanceStep(answers: ResistanceAnswers, now: Instant, limits: RemovalLimits): ResistanceStep {
  const { withdrawnCm, heatedAt, dressedAt } = answers;
  const findings = [finding("removal-no-force", "met", "note"), ...clot(withdrawnCm, limits)];
  if (answers.retriedAfterRest) return { step: "image", findings };
  if (isKnown(dressedAt)) {
    const fromAt = instantAfter(dressedAt, limits.retryFromHours * 60);
    const toAt = instantAfter(dressedAt, limits.retryToHours * 60);
    const rested = minutesBetween(fromAt, now) >= 0;
    return { step: rested ? "try again" : "leave it dressed", fromAt, toAt, findings };
  }
  if (!answers.rePositioned) return { step: "stop and re-position", findings };
  if (isMissing(heatedAt)) return { step: "heat and a warm drink", findings };
  const fromAt = instantAfter(heatedAt, limits.heatMin);
  return { step: minutesBetween(fromAt, now) < 0 ? "wait for the heat" : "dress and leave", fromAt, findings };
}

function clot(withdrawnCm: Maybe<Centimetre>, { stuckClotBelowCm }: RemovalLimits): Finding[] {
  if (isMissing(withdrawnCm))
    return [finding("removal-withdrawn-missing", "not known", "ask", {}, { path: "withdrawnCm" })];
  const values = { withdrawnCm, limitCm: stuckClotBelowCm };
  return withdrawnCm < stuckClotBelowCm
    ? [finding("removal-stuck-think-clot", "not met", "ask", values, { policy: ["care.stuck-clot"] })]
    : [];
}
