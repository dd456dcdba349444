import type { CaseStep, CaseStory } from "../../audit/index.ts";
import { caseWords, sayCaseDay, sayCaseFacts, sayCaseName, sayCaseStep, sayCaseValue } from "../../language/index.ts";
import type { Block } from "../line/index.ts";

/** As many rows as one page holds; the rest is told by its number. */
const MOST_ROWS = 34;
const SHARES = [1, 2.2, 5];

/** A story as the parts of a sheet: whose line, then its course; what went as it should is drawn together. */
export function caseBlocks({ opening, steps, peopleAlike, rare }: CaseStory): readonly Block[] {
  const rows = courseRows(steps);
  return [
    {
      kind: "rows",
      rows: opening.map((fact) => ({ label: sayCaseName(fact), value: sayCaseValue(fact) })),
    },
    { kind: "table", head: caseWords.head, shares: SHARES, rows: rows.slice(0, MOST_ROWS), tight: true },
    ...(rows.length > MOST_ROWS ? [{ kind: "soft", text: caseWords.more(rows.length - MOST_ROWS) } as const] : []),
    { kind: rare ? "say" : "soft", text: rare ? caseWords.rare(peopleAlike) : caseWords.notRare },
  ];
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

interface Quiet {
  readonly from: number;
  to: number;
  cares: number;
  uses: number;
}

function courseRows(steps: readonly CaseStep[]): readonly (readonly string[])[] {
  const rows: (readonly string[])[] = [];
  let quiet: Quiet | undefined;
  const close = (): void => {
    if (!quiet) return;
    const { from, to, cares, uses } = quiet;
    rows.push([sayCaseDay(from, to), capital(caseWords.quiet(cares, uses)), ""]);
    quiet = undefined;
  };
  for (const step of steps) {
    if (isQuiet(step)) {
      quiet ??= { from: step.day, to: step.day, cares: 0, uses: 0 };
      quiet.to = step.day;
      if (step.what === "LineUsed") quiet.uses += 1;
      else quiet.cares += 1;
      continue;
    }
    close();
    rows.push([sayCaseDay(step.day), sayCaseStep(step), sayCaseFacts(step.facts)]);
  }
  close();
  return rows;
}

/** A use, or a care that found nothing to tell. */
const AS_IT_SHOULD: Readonly<Record<string, string>> = {
  bloodReturn: "yes",
  flushes: "freely",
  symptoms: "none",
  site: "clean",
  stillNeeded: "yes",
};

function isQuiet({ what, facts }: CaseStep): boolean {
  if (what === "LineUsed") return true;
  if (what !== "CareGiven") return false;
  return Object.entries(AS_IT_SHOULD).every(([name, usual]) => {
    const fact = facts.find((one) => one.name === name);
    return fact !== undefined && String(fact.value) === usual;
  });
}
