import type { CivilDate, Instant } from "../calendar/index.ts";
import type { Maybe } from "../missing/index.ts";

export const SETTINGS = ["ward", "home"] as const;
export type Setting = (typeof SETTINGS)[number];

export const DRESSINGS = ["transparent", "gauze"] as const;
export type Dressing = (typeof DRESSINGS)[number];

export const DRESSING_STATES = ["sound", "wet", "loose", "soiled", "lifting"] as const;
export type DressingState = (typeof DRESSING_STATES)[number];

/** Why a connector is changed at once; "none" leaves it its time. */
export const CONNECTOR_REASONS = ["none", "blood", "debris", "was taken off", "before a culture"] as const;
export type ConnectorReason = (typeof CONNECTOR_REASONS)[number];

/** Administration sets by what runs through them: each kind has its own hours. */
export const SET_KINDS = [
  "continuous",
  "intermittent",
  "nutrition",
  "nutrition with lipid",
  "lipid",
  "blood",
  "propofol",
] as const;
export type SetKind = (typeof SET_KINDS)[number];

/** Who does the next care, where, and when: the three that every due date carries. */
export interface CareOwner {
  readonly person: Maybe<string>;
  readonly place: Maybe<string>;
  readonly nextOn: Maybe<CivilDate>;
}

/** The last care of one line as the record folds it. A care that nobody wrote down is missing, never "done". */
export interface LineCare extends CareOwner {
  readonly id: string;
  readonly setting: Setting;
  readonly dressing: Maybe<{
    readonly type: Dressing;
    readonly doneAt: Instant;
    readonly state: Maybe<DressingState>;
    /** When that state was seen; now, where nobody wrote it. */
    readonly stateSeenAt?: Instant;
  }>;
  readonly connector: Maybe<{
    readonly changedAt: Instant;
    readonly reason: Maybe<ConnectorReason>;
    readonly reasonSeenAt?: Instant;
  }>;
  /** The later of the last flush and the last use that ended in one. */
  readonly flushedAt: Maybe<Instant>;
  readonly sets: readonly { readonly kind: SetKind; readonly startedAt: Instant }[];
  readonly reviewedAt: Maybe<Instant>;
}
