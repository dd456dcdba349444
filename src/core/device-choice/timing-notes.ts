import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";

export interface BleedingInput {
  readonly inr: Maybe<number>;
  /** 10^9 per litre. */
  readonly platelets: Maybe<number>;
  readonly clopidogrel: Maybe<boolean>;
}

export const CULTURE_STATES = ["none taken", "negative", "positive"] as const;
export type CultureState = (typeof CULTURE_STATES)[number];

export interface CultureInput {
  readonly state: Maybe<CultureState>;
  /** Hours since the first negative culture after a positive one. */
  readonly hoursSinceNegative: Maybe<number>;
}

export interface TimingLimits {
  readonly inrMost: number;
  readonly plateletsLeast: number;
  /** Platelets below this show the trial that disagrees. */
  readonly plateletsDoubtBelow: number;
  readonly cultureHours: number;
}

/**
 * What bleeding risk says about placing a PICC, as notes and asks and never as a verdict.
 * Holds: a PICC counts as a procedure of low bleeding risk. Limits are policy.
 * Source: Patel IJ and others 2019, J Vasc Interv Radiol 30:1168, low-risk table.
 */
export function bleedingNotes({ inr, platelets, clopidogrel }: BleedingInput, limits: TimingLimits): Finding[] {
  const notes: Finding[] = [];
  if (!isMissing(inr)) {
    const policy = ["bleeding.inr-most"];
    const values = { inr, most: limits.inrMost };
    notes.push(
      inr > limits.inrMost
        ? finding("inr-above", "at the limit", "ask", values, { policy })
        : finding("inr-within", "met", "note", values, { policy }),
    );
  }
  if (!isMissing(platelets)) {
    const policy = ["bleeding.platelets-least"];
    const values = { platelets, least: limits.plateletsLeast };
    notes.push(
      platelets < limits.plateletsLeast
        ? finding("platelets-below", "at the limit", "ask", values, { policy })
        : finding("platelets-within", "met", "note", values, { policy }),
    );
    if (platelets < limits.plateletsDoubtBelow)
      notes.push(
        finding("platelets-trial-disagrees", "at the limit", "note", values, { policy: ["bleeding.platelets-doubt"] }),
      );
  }
  if (clopidogrel === true) notes.push(finding("clopidogrel-continues", "met", "note"));
  return notes;
}

/** What a blood culture says about when to place, as a note or an ask. The wait is custom; no trial sets it. */
export function cultureNotes({ state, hoursSinceNegative }: CultureInput, limits: TimingLimits): Finding[] {
  const more = { policy: ["culture.wait"] };
  if (state !== "positive" && isMissing(hoursSinceNegative)) return [];
  if (isMissing(hoursSinceNegative))
    return [finding("culture-positive", "not known", "ask", { hours: limits.cultureHours }, more)];
  const left = limits.cultureHours - hoursSinceNegative;
  return left > 0
    ? [finding("culture-wait", "at the limit", "ask", { left, hours: limits.cultureHours }, more)]
    : [finding("culture-cleared", "met", "note", { hours: hoursSinceNegative }, more)];
}
