import type { Instant } from "../calendar/index.ts";
import type { Finding } from "../reason/index.ts";
import type { FilmReading, TipPolicy } from "../tip/index.ts";

/** When a release ends, is held or is narrowed; the rows stand in src/policy/tip-rows.ts. */
export interface ReleasePolicy {
  readonly noiseCm: number;
  readonly outCm: number;
  readonly knownHours: number;
  readonly notThroughHeld: readonly string[];
  readonly endsOnSymptoms: readonly string[];
  /** Of these, the signs that say nothing of where the tip lies: settled for themselves, without a new reading. */
  readonly silentOnTip: readonly string[];
  /** Whether a flush that is hard or fails while the length stands changed speaks of the tip. */
  readonly flushAfterMove: boolean;
  readonly centralPlaces: readonly string[];
  /** Whether a tip that was moved must be read again before a release. */
  readonly filmAfterCorrection: boolean;
  /** Roles that may pass the stop of a tip outside the good places. */
  readonly overrideRoles: readonly string[];
  /** What a film is read by: a tip too deep is one that the film itself asks to withdraw. */
  readonly film: TipPolicy;
}

/** A person said that the line may be used, and for what. */
export interface GivenRelease {
  readonly at: Instant;
  readonly writtenAt: Instant;
  readonly uses: readonly string[];
  readonly by: string;
  /** False where no account vouches for the role it was signed in. */
  readonly checked?: boolean;
}

/** A tip that was read, or corrected: from here on lengths are held against its outside length. */
export interface FixedTip {
  readonly at: Instant;
  readonly kind: "read" | "corrected";
  readonly place: string | undefined;
  /** When its place was last written, a correction of it included: who released before that did not know of it. */
  readonly placeWrittenAt?: Instant;
  readonly outsideCm: number | undefined;
  /** The film it was read on, where it was a film. */
  readonly film?: FilmReading;
}

/** Two people passed the stop of the tip by name, with their reason. */
export interface PassedStop {
  readonly at: Instant;
  readonly writtenAt: Instant;
  readonly why: string;
  readonly names: readonly [string, string];
  /** The role it was signed in. */
  readonly role: string;
}

/** What somebody found at the line. */
export interface Observation {
  readonly at: Instant;
  readonly writtenAt: Instant;
  readonly outsideCm: number | undefined;
  readonly second: { readonly outsideCm: number; readonly by: string } | undefined;
  readonly measuredBy: string;
  readonly bloodReturn: string | undefined;
  readonly symptoms: readonly string[];
  /** "freely", "with resistance" or "no", where somebody tried. */
  readonly flushes?: string | undefined;
  /** Somebody wrote that the length changed or the tip lies elsewhere, and gave no number. */
  readonly moved?: boolean;
}

/** What ended a release without a word of the tip is settled: an infection concluded as none, or two people by name. */
export interface SettledSign {
  readonly at: Instant;
  readonly writtenAt: Instant;
  /** The two people and their reason; undefined where a named person concluded that there was no infection. */
  readonly passed: PassedStop | undefined;
}

/** Something given through the line. */
export interface Use {
  readonly at: Instant;
  readonly what: string;
  readonly by: string;
}

export interface ReleaseFacts {
  readonly releases: readonly GivenRelease[];
  readonly tips: readonly FixedTip[];
  /** Passings of the tip's stop. */
  readonly passed: readonly PassedStop[];
  readonly observations: readonly Observation[];
  readonly settled?: readonly SettledSign[];
  readonly uses: readonly Use[];
  /** Where the line is out or its end is not known. */
  readonly end: "removed" | "unknown" | "handed on" | undefined;
  readonly sidesAgree: boolean;
}

/**
 * May the line be used?
 *   not released    nobody has released it, or plan, placing and film do not agree
 *   may be used     released, and nothing since says otherwise
 *   blocked         nothing goes through it: it is for nothing until it runs
 *   restricted      blood does not come back: some uses are off
 *   held            the outside length changed a little: some uses wait for a second measurer
 *   ended           the release is over; only a new release begins another, after a new tip reading or, where what ended
 *                   it says nothing of the tip, after that is settled
 *   not confirmed   what this device knows is too old to be believed
 */
export const RELEASE_STATES = [
  "not released",
  "may be used",
  "restricted",
  "held",
  "ended",
  "not confirmed",
  "blocked",
] as const;
export type ReleaseState = (typeof RELEASE_STATES)[number];

export interface ReleaseJudgement {
  readonly state: ReleaseState;
  /** What the device last knew when the state is "not confirmed". */
  readonly lastKnown: Exclude<ReleaseState, "not confirmed">;
  /** What may be given now; nothing while it is not released, ended or not confirmed. */
  readonly uses: readonly string[];
  readonly knownAt: Instant | undefined;
  readonly since: Instant | undefined;
  readonly findings: readonly Finding[];
  /** Why a release written now would not stand; undefined where nothing of the tip speaks against it. */
  readonly stop: Finding | undefined;
  /** What was given after the release had already ended, held or narrowed for it: each is to be told to somebody. */
  readonly usedSince: readonly Use[];
}
