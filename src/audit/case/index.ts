export { peopleAlike, type RareGroup } from "./people-alike.ts";
export type { CaseFact, CaseStep, CaseStory } from "./story.ts";
export { CASE_FIELDS, caseOfLine } from "./case-of-line.ts";
export { GRAVEST_FIRST, twoCases, type TwoCases } from "./two-cases.ts";
export { caseOfRow } from "./case-of-row.ts";
