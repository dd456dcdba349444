/** How a figure of a fluid is known; printed beside every number it leads to. */
export type HowKnown = "published" | "computed" | "from memory" | "estimate";

export interface Sourced {
  readonly source: string;
  readonly howKnown: HowKnown;
}
