/** The intervals of care; the rows stand in src/policy/care-rows.ts. */
export interface CarePolicy {
  readonly transparentDays: number;
  readonly gauzeDays: number;
  /** States of a dressing that make its change due at once. */
  readonly atOnceStates: readonly string[];
  readonly connectorDays: number;
  readonly idleFlushDays: number;
  readonly idleHoursWard: number;
  readonly idleDaysHome: number;
  readonly longDwellDays: number;
  readonly notSeenDays: number;
  readonly setHours: Readonly<Record<SetKind, number>>;
  readonly connectorLeastHours: number;
}

/** What runs through an administration set decides how long it may hang. */
export const SET_KINDS = ["continuous", "intermittent", "nutrition", "lipid alone", "blood"] as const;
export type SetKind = (typeof SET_KINDS)[number];
