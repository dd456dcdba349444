import type { PackedLines } from "./packed-lines.ts";
import type { PackedReferrals } from "./packed-referrals.ts";

/** Many texts as one, and where each ends: one thing to send, whatever letters they hold. */
export interface SentTexts {
  readonly text: string;
  readonly ends: Uint32Array;
}

/** Packed lines without functions: what may pass between threads. */
export interface SentLines extends Omit<PackedLines, "keyAt" | "patientAt" | "referrals"> {
  readonly keys: SentTexts;
  readonly patients: SentTexts;
  readonly referrals: Omit<PackedReferrals, "keyAt"> & { readonly keys: SentTexts };
}

function sentTexts(count: number, textAt: (at: number) => string): SentTexts {
  const ends = new Uint32Array(count);
  const texts: string[] = [];
  let end = 0;
  for (let at = 0; at < count; at += 1) {
    const text = textAt(at);
    texts.push(text);
    end += text.length;
    ends[at] = end;
  }
  return { text: texts.join(""), ends };
}

const textsOf =
  ({ text, ends }: SentTexts) =>
  (at: number) =>
    text.slice(at === 0 ? 0 : ends[at - 1], ends[at]);

/** Packed lines made ready to be sent to another thread; `packedOfSent` gives back the very lines. */
export function sentLines({ keyAt, patientAt, referrals, ...columns }: PackedLines): SentLines {
  const { keyAt: referralKeyAt, ...ofReferrals } = referrals;
  return {
    ...columns,
    keys: sentTexts(columns.count, keyAt),
    patients: sentTexts(columns.count, patientAt),
    referrals: { ...ofReferrals, keys: sentTexts(referrals.count, referralKeyAt) },
  };
}

/** The packed lines that were sent. */
export function packedOfSent({ keys, patients, referrals, ...columns }: SentLines): PackedLines {
  const { keys: referralKeys, ...ofReferrals } = referrals;
  return {
    ...columns,
    keyAt: textsOf(keys),
    patientAt: textsOf(patients),
    referrals: { ...ofReferrals, keyAt: textsOf(referralKeys) },
  };
}

/** The memory that can be handed over instead of copied: every column once. */
export function columnsOf(sent: SentLines): readonly ArrayBufferLike[] {
  const found = new Set<ArrayBufferLike>();
  const walk = (value: unknown): void => {
    if (ArrayBuffer.isView(value)) found.add(value.buffer);
    else if (typeof value === "object" && value !== null) for (const one of Object.values(value)) walk(one);
  };
  // lists of words are many and hold no column
  const { asOf: _, wardMonths: __, ...columns } = sent;
  walk(columns);
  return [...found];
}
