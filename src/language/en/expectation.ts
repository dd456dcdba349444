import type { Complication, Expectation, ExpectationRefusal } from "../../core/expectation/index.ts";

export const complicationName: Readonly<Record<Complication, string>> = {
  clot: "Clot with symptoms",
  "blood infection": "Blood infection",
  blocked: "Blocked lumen",
  "other removal": "Lost another way",
};

/** A range in a hundred people; never a single number, which the literature does not carry. */
export function rangeInHundred({ low, high }: Expectation): string {
  const least = low < 1 ? "under 1" : low.toFixed(0);
  const most = high < 1 ? "1" : high.toFixed(0);
  return least === most ? `about ${most} in 100` : `${least} to ${most} in 100`;
}

export const refusalSentence: Readonly<Record<ExpectationRefusal, string>> = {
  "adult figures are not for children": "These figures are of adults. None is given for a child.",
  "ratio and French are one thing: keep the ratio": "Ratio and French are one thing; only the ratio is used.",
  "days must be above zero": "Say for how many days, and the expected complications stand here.",
};

/** What the comparison cannot claim, said beside it every time. */
export const cannotClaim = [
  "Published groups of adults, not this person. Four of five services lie inside a range.",
  "A difference is not a cause: sicker patients get bigger lines.",
  "They compete: never add them up.",
  "No limit, no order to treat: context for a talk.",
] as const;
