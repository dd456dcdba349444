/** A thin space keeps a unit touching its number. */
const THIN = "\u202f";

/** One decimal unless the decision needs more; a whole number of a countable thing has none. */
export function amount(value: number, unit: string, decimals = 1): string {
  if (!Number.isFinite(value)) return `no end${THIN}${unit}`;
  return unit === "" ? value.toFixed(decimals) : `${value.toFixed(decimals)}${THIN}${unit}`;
}

export const percent = (value: number): string =>
  Number.isFinite(value) ? `${value.toFixed(0)}${THIN}%` : "no upper end";

/** A chance in words of a hundred; never 0 or 100, which nothing measured can promise. */
export function inHundred(chancePercent: number): string {
  if (chancePercent >= 99.5) return "more than 99 in 100";
  if (chancePercent <= 0.5) return "fewer than 1 in 100";
  return `${chancePercent.toFixed(0)} in 100`;
}

/** A whole number of a countable thing: "1 event", "1,204 events". */
export const numberOf = (count: number, one: string): string =>
  `${count.toLocaleString("en-GB", { maximumFractionDigits: 0 })} ${one}${count === 1 ? "" : "s"}`;

export const lumens = (count: number): string =>
  `${["no", "one", "two", "three", "four", "five"][count] ?? String(count)} lumen${count === 1 ? "" : "s"}`;

export const armWords = (side: unknown): string => (side === "right" ? "RIGHT ARM" : "LEFT ARM");
