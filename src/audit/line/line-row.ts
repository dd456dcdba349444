import type { Moment } from "../../core/dwell/index.ts";
import type { Maybe } from "../../core/missing/index.ts";
import type { TipPlace } from "../../core/tip/index.ts";
import { REMOVAL_REASONS } from "../../register/index.ts";

/**
 * The neutral line table: one row per line, whatever it was read from. The register and a service's own spreadsheet both
 * end here, and every figure begins here. Nobody can be named from it: keys stand for people, places are codes.
 * An absent value is one of four kinds and is never read as normal.
 */
export const SIDES = ["left arm", "right arm"] as const;
export const ROW_VEINS = ["basilic", "brachial", "cephalic", "axillary"] as const;
export const ROW_SETTINGS = ["ward", "home"] as const;

export const DIAGNOSIS_GROUPS = [
  "infection",
  "solid cancer",
  "blood cancer",
  "nutrition",
  "kidney disease",
  "critical illness",
  "other",
] as const;

export const INDICATIONS = [
  "antimicrobial",
  "chemotherapy",
  "parenteral nutrition",
  "other infusion",
  "blood sampling",
  "no other vein",
] as const;

export { REMOVAL_REASONS };
export type RemovalReason = (typeof REMOVAL_REASONS)[number];

/**
 * How the row stops.
 *   removed     out, at a known moment
 *   handed on   another service answers for it from then on: no more days are ours
 *   in place    known to be in at a last moment, and still ours
 *   unknown     nobody knows whether it is in; known to be in at a last moment
 */
export type RowEnd =
  | { readonly kind: "removed"; readonly at: Moment; readonly reason: Maybe<RemovalReason> }
  | { readonly kind: "handed on"; readonly at: Moment }
  | { readonly kind: "in place"; readonly lastKnown: Moment }
  | { readonly kind: "unknown"; readonly lastKnown: Moment };

export const ROW_EVENTS = [
  "infection",
  "thrombosis",
  "occlusion",
  "migration",
  "dislodgement",
  "leak or break",
  "exit site infection",
] as const;
export type RowEventKind = (typeof ROW_EVENTS)[number];

/**
 * One thing that went wrong. An infection carries three flags that are never mixed: what the ward concluded, what the
 * surveillance definition says, and what paired cultures showed. The others leave all three "not asked".
 */
export interface RowEvent {
  readonly kind: RowEventKind;
  readonly at: Moment;
  readonly clinical: Maybe<boolean>;
  readonly surveillance: Maybe<boolean>;
  readonly pairedCulture: Maybe<boolean>;
  /** Of an infection by the surveillance definition: one of an injured mucosal barrier; absent where nobody asked. */
  readonly mucosal?: Maybe<boolean>;
  /** Of a blocked line: when it was first seen to run again; absent where nobody wrote it. */
  readonly clearedAt?: Moment;
}

export interface LineRow {
  /** Opaque; the same line always gets the same key within one table. */
  readonly key: string;
  /** Opaque; lines of one person share it. */
  readonly patient: string;
  /** End of the insertion. Undefined holds the row out of every figure that needs time. */
  readonly placed: Moment | undefined;
  /** It came with the patient: its days count from when the service first knew it. */
  readonly knownFrom: Moment | undefined;
  readonly end: RowEnd;
  readonly events: readonly RowEvent[];
  /** Kinds of event that came while the line was in, on a day nobody can read; each once, absent where there is none. */
  readonly undated?: readonly RowEventKind[];

  readonly side: Maybe<(typeof SIDES)[number]>;
  readonly vein: Maybe<(typeof ROW_VEINS)[number]>;
  /** Outside diameter, French (three to the millimetre). */
  readonly sizeFr: Maybe<number>;
  readonly lumens: Maybe<number>;
  readonly veinDiameterMm: Maybe<number>;
  /** Catheter over vein, a share of one, when it was written down itself; `ratioOf` works it out otherwise. */
  readonly writtenRatio: Maybe<number>;
  /** Where the vein was entered: 0 at the medial epicondyle, 1 at the axillary line. */
  readonly positionShare: Maybe<number>;
  readonly attempts: Maybe<number>;
  /** Opaque; shown to the person and the trainer only, never ranked. */
  readonly inserter: Maybe<string>;
  readonly ward: Maybe<string>;
  readonly setting: Maybe<(typeof ROW_SETTINGS)[number]>;
  /** Whole years at insertion. */
  readonly ageYears: Maybe<number>;
  readonly diagnosis: Maybe<(typeof DIAGNOSIS_GROUPS)[number]>;
  readonly indication: Maybe<(typeof INDICATIONS)[number]>;
  readonly tipMethod: Maybe<"film" | "ECG" | "fluoroscopy" | "echo" | "none yet">;
  readonly tipPlace: Maybe<TipPlace>;
  /** Opaque code of the lot, and of the kind of catheter. */
  readonly lot: Maybe<string>;
  readonly catheter: Maybe<string>;
  /** mL/min/1.73 m2 at referral. */
  readonly eGfr: Maybe<number>;

  /** Care that was overdue when the table was made, by its name. */
  readonly overdueCare: Maybe<readonly string[]>;
  /** Codes of stops that two named people passed. */
  readonly overrides: Maybe<readonly string[]>;
  /** Whole days in place after the last use, up to the end or the last known moment. */
  readonly idleDays: Maybe<number>;
  readonly owned: Maybe<boolean>;
  /** Absent where nothing of it was written. */
  readonly checks?: RowChecks;
}

export const TIME_KNOWN_TO = ["minute", "day", "month"] as const;

/** What only the rules of quality read of a row. */
export interface RowChecks {
  /** Length inside at insertion. */
  readonly insideCm: Maybe<number>;
  readonly weightKg: Maybe<number>;
  /** Key of the line that this one took the place of. */
  readonly replaces: Maybe<string>;
  /** Where "month", a date of this row stands for its month. */
  readonly timeKnownTo: Maybe<(typeof TIME_KNOWN_TO)[number]>;
  /** Values first written or changed after an event of the line, by their columns' names. */
  readonly writtenAfter: Maybe<readonly string[]>;
}

export const REFERRAL_OUTCOMES = ["placed", "declined", "waiting", "open", "tried, not placed"] as const;

/** A call for a line and what came of it; declining for a good reason is a good outcome and is counted. */
export interface ReferralRow {
  readonly key: string;
  readonly receivedOn: Moment;
  readonly outcome: (typeof REFERRAL_OUTCOMES)[number];
  /** What was used instead; the reason in words stays in the record, for it may name a person. */
  readonly instead: Maybe<string>;
  readonly ward: Maybe<string>;
}

/** A ward's month as the hospital's own books have it: what no line can tell. */
export interface WardMonth {
  readonly key: string;
  readonly ward: string;
  /** The first day of the month. */
  readonly month: Moment;
  readonly patientDays: Maybe<number>;
  /** Patients with a line, counted by hand at the same hour each day and summed. */
  readonly manualDays: Maybe<number>;
  /** Patients with a line and all patients, counted on one fixed weekday and summed over the month. */
  readonly sampledWithLine: Maybe<number>;
  readonly sampledAll: Maybe<number>;
  /** On how many days that weekday was counted; absent where nobody was asked, as the next. */
  readonly sampledDays?: Maybe<number>;
  /** Whether every central line of the ward was counted, and not those of this service alone. */
  readonly everyCentralLine?: Maybe<boolean>;
}

/** Everything an audit reads. `asOf` is the moment the table was made: later than it nothing is known. */
export interface AuditTable {
  readonly asOf: Moment;
  readonly lines: readonly LineRow[];
  readonly referrals: readonly ReferralRow[];
  readonly wardMonths?: readonly WardMonth[];
}
