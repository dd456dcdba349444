import { amount } from "./number.ts";

const two = (value: number | undefined): string => (value === undefined ? "none" : amount(value, "", 2));

/** What a plate of time says beyond its chart: the sum, where it signals, and the numbered changes. */
export const timePlateWords = {
  sumUnit: "sum",
  decision: (decision: number): string => `look at ${two(decision)}`,
  under: (clock: string): string =>
    `events in ${clock}; dashes: exact limits; strokes: each event; dotted: late entries may come`,
  signal: "look",
  sentence: (
    chart: string,
    sum: { readonly signals: number; readonly last: number; readonly decision: number } | undefined,
  ): string =>
    sum === undefined
      ? chart
      : `${chart} The sum signals ${sum.signals === 0 ? "nowhere" : sum.signals === 1 ? "once" : `${sum.signals} times`}; it ends at ${two(sum.last)} of ${two(sum.decision)}.`,
  change: (number: number, words: string): string => ` Mark ${number}: ${words.replace(/\.?$/, ".")}`,
  columns: ["Sum at the end", "Signals by the sum", "Changes"] as const,
  row: (sum: number | undefined, signals: number, changes: readonly number[]): readonly string[] => [
    two(sum),
    String(signals),
    changes.join(", "),
  ],
} as const;
