import type { Measure } from "../../audit/index.ts";

/** The rates per 1,000 line-days that can be agreed on: an event a line-day at most. Common practice, no source. */
const [LEAST, MOST] = [0.001, 1000] as const;
export const TARGET_RULE = `A target is a measure that is counted here and its rate per 1,000, from ${LEAST} to ${MOST}: thrombosis=1.5.`;

/** "thrombosis=1.5,occlusion=4" as rates by measure; undefined for anything else. */
export function targetsOf(text: string, measures: readonly Measure[]): Readonly<Record<string, number>> | undefined {
  const parts = text
    .split(",")
    .map((part) => part.trim())
    .filter(Boolean);
  const read = parts.map((part) => part.split("="));
  const counts = (name: string | undefined) =>
    measures.some(({ id, numerator }) => id === name && numerator.count === "events");
  return read.every(
    ([name, rate = "", ...more]) =>
      counts(name) && /^\d+(\.\d+)?$/.test(rate) && Number(rate) >= LEAST && Number(rate) <= MOST && more.length === 0,
  )
    ? Object.fromEntries(read.map(([name, rate]) => [name as string, Number(rate)]))
    : undefined;
}
