/** Every kind of fault a file can have; docs/reference/fault.md shows each with its words. */
export const FAULT_CODES = [
  "not-json",
  "too-large",
  "wrong-type",
  "unknown-field",
  "out-of-range",
  "not-in-list",
  "thousands-separator",
  "both-units",
  "gauge-for-french",
  "missing-field",
  "twice",
  "no-such-date",
  "hidden-sign",
  "out-of-order",
  "contradicts",
  "wrong-length",
  "check-letters",
  "header-alone",
] as const;
export type FaultCode = (typeof FAULT_CODES)[number];

/** One thing wrong with an entry: where, what was found, and which rule it breaks. Words are in src/language. */
export interface Fault {
  /** Dotted path in the file, "" for the file itself. */
  readonly path: string;
  readonly code: FaultCode;
  /** The value found, shortened; never longer than 40 characters. */
  readonly found: string;
  readonly rule: string;
  /** Another reading that would be in range, such as a point put back; asked about, never taken. */
  readonly meant?: number;
}

export function shown(value: unknown): string {
  const text = typeof value === "string" ? value : jsonOf(value);
  return text.length > 40 ? `${text.slice(0, 37)}...` : text;
}

/** A value too deep to be written out is still a value with a fault. */
function jsonOf(value: unknown): string {
  try {
    return JSON.stringify(value) ?? String(value);
  } catch {
    return "too deep to show";
  }
}
