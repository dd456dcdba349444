import type { Instant } from "../calendar/index.ts";
import type { Maybe } from "../missing/index.ts";
import type { LyticFacts } from "./lytic-dose.ts";
import type { BloodReturn, Flushing } from "./occlusion-kind.ts";

/** What a hand can put right before anything is given, in this order. */
export const MECHANICAL_STEPS = ["clamp", "kink", "dressing", "connector", "arm", "cough"] as const;
export type MechanicalStep = (typeof MECHANICAL_STEPS)[number];

export const STEP_RESULTS = ["flows again", "no change"] as const;
export type StepResult = (typeof STEP_RESULTS)[number];

export const OUTSIDE_LENGTHS = ["as at the last film", "changed", "no film to compare"] as const;
export type OutsideLength = (typeof OUTSIDE_LENGTHS)[number];

/** What ran before it blocked. "nothing found" has no cause, so a film comes first. */
export const CAUSES = ["blood", "lying idle", "two drugs together", "lipid", "nothing found"] as const;
export type PatencyCause = (typeof CAUSES)[number];

export const FILMS = ["tip where it was", "tip elsewhere"] as const;
export type FilmResult = (typeof FILMS)[number];

/** One dose of lytic with what was seen after it. A check not yet made is missing. */
export interface LyticGiven {
  readonly at: Instant;
  readonly bloodAtFirstCheck: Maybe<boolean>;
  readonly bloodAtSecondCheck: Maybe<boolean>;
}

/** Everything answered so far about one blocked lumen; the next step is read from it and from the time. */
export interface PatencyAnswers extends LyticFacts {
  readonly mechanical: Partial<Readonly<Record<MechanicalStep, StepResult>>>;
  readonly outsideLength: Maybe<OutsideLength>;
  readonly flushes: Maybe<Flushing>;
  readonly blood: Maybe<BloodReturn>;
  /** Kept for the record and for pharmacy; no step turns on it. */
  readonly blockedSince: Maybe<Instant>;
  readonly cause: Maybe<PatencyCause>;
  /** Pain in the arm, shoulder or chest, or swelling. */
  readonly pain: Maybe<boolean>;
  /** A rushing sound in the ear while flushing. */
  readonly earSound: Maybe<boolean>;
  readonly film: Maybe<FilmResult>;
  /** In the order given. */
  readonly lytic: readonly LyticGiven[];
}
