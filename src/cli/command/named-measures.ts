import { FACTOR_NAMES, readMeasures, STRATA, type Measure } from "../../audit/index.ts";
import type { Said } from "./command.ts";

/** The measures a command names, in the order they were named, or which name is none and what there is. */
export function namedMeasures(
  measures: readonly Measure[],
  names: readonly string[],
): { readonly measures: readonly Measure[] } | Said {
  const found = names.map((name) => measures.find(({ id }) => id === name));
  const odd = names.find((_, at) => found[at] === undefined);
  return odd === undefined
    ? { measures: found as readonly Measure[] }
    : { exit: 64, output: `No measure "${odd}". There are: ${measures.map(({ id }) => id).join(", ")}.` };
}

/** Measures of events: what a rate, a curve, a chart and a map are of. */
export const eventMeasures = (measures: readonly Measure[]): readonly Measure[] =>
  measures.filter(({ numerator }) => numerator.count === "events");

/** Words between commas, without the empty ones. */
export const listed = (text: string | undefined): readonly string[] =>
  (text ?? "")
    .split(",")
    .map((name) => name.trim())
    .filter(Boolean);

/** What --help says of the options of a line table: the measures a command takes, and what figures are split by. */
export const lineTableWords =
  (eventsOnly: boolean, more: readonly string[] = []) =>
  (): readonly string[] => {
    const read = readMeasures();
    const all = read.kind === "measures" ? read.measures : [];
    const ids = (eventsOnly ? eventMeasures(all) : all).map(({ id }) => id);
    return [
      `A measure is one of: ${ids.join(", ")}.`,
      "--as-of is the day the table was made; --from and --to bound the period, the last day left out.",
      ...more,
    ];
  };

export const splitWords = `--by splits by: ${STRATA.join(", ")}.`;
export const factorWords = `--factors are of: ${FACTOR_NAMES.join(", ")}.`;
