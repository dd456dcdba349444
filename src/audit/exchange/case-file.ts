import type { CaseFact, CaseStory } from "../case/index.ts";

/** A line's story as a file other programs read; the count of people alike stays in the service, its warning goes along. */
export interface CaseFile {
  readonly format: "line-story-1";
  readonly policyVersion: string;
  readonly dayZero: "day of the placing";
  readonly fewAlike: boolean;
  readonly opening: CaseStory["opening"];
  readonly steps: CaseStory["steps"];
}

export const caseFile = ({ opening, steps, rare }: CaseStory, policyVersion: string): CaseFile => ({
  format: "line-story-1",
  policyVersion,
  dayZero: "day of the placing",
  fewAlike: rare,
  opening,
  steps,
});

/**
 * The same as a table, one fact a row: day, what, fact, value, unit; an event without a fact keeps its own row.
 * Source: RFC 4180. Holds: any story; no value of a story holds a comma, a quote or a line end, for none is free words.
 */
export function caseCsv({ opening, steps }: CaseStory): string {
  const row = (day: string, what: string, fact?: CaseFact): string =>
    [day, what, fact?.name ?? "", fact ? textOf(fact.value) : "", fact?.unit ?? ""].join(",");
  return `${[
    "day,what,fact,value,unit",
    ...opening.map((fact) => row("", "opening", fact)),
    ...steps.flatMap(({ day, what, facts }) =>
      facts.length === 0 ? [row(String(day), what)] : facts.map((fact) => row(String(day), what, fact)),
    ),
  ].join("\r\n")}\r\n`;
}

const textOf = (value: CaseFact["value"]): string =>
  typeof value === "boolean" ? (value ? "yes" : "no") : Array.isArray(value) ? value.join(";") : String(value);
