import { caseWords, sayPage } from "../../language/index.ts";
import type { PageSize, Sheet } from "../line/index.ts";

/** What a case is printed under: the policy it was counted by, and whether its people are invented. */
export interface CasePrinting {
  readonly policyVersion: string;
  readonly practice: boolean;
  readonly size?: PageSize;
}

/** What a sheet of cases carries whatever it tells: one page that names nobody, no arm and no day of printing. */
export function caseFrame({
  policyVersion,
  practice,
  size = "A4",
}: CasePrinting): Pick<Sheet, "name" | "identifiers" | "arm" | "practice" | "foot" | "page" | "size"> {
  const foot = caseWords.foot(policyVersion);
  return {
    name: caseWords.name,
    identifiers: caseWords.identifiers,
    arm: "",
    practice: practice ? caseWords.practice : "",
    foot: practice ? `${caseWords.practice}. ${foot}` : foot,
    page: sayPage(1, 1),
    size,
  };
}
