/**
 * Four different absences. A missing value is never read as normal and never as zero: a decision that needs it asks.
 *   not known     asked, and nobody knows
 *   not asked     nobody has asked yet (what an empty field means)
 *   not measured  could be measured and has not been
 *   refused       the patient or carer declined to answer
 */
export const MISSING_KINDS = ["not known", "not asked", "not measured", "refused"] as const;
export type MissingKind = (typeof MISSING_KINDS)[number];
export type Missing = { readonly missing: MissingKind };
export type Maybe<Value> = Value | Missing;

export const missing = (kind: MissingKind): Missing => ({ missing: kind });

export function isMissing(value: unknown): value is Missing {
  return typeof value === "object" && value !== null && "missing" in value;
}

export function isKnown<Value>(value: Maybe<Value>): value is Value {
  return !isMissing(value);
}
