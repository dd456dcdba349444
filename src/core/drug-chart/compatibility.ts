import { isMissing } from "../missing/index.ts";
import type { Compatibility, DrugChart, Infusion } from "./chart.ts";

const pairKey = (first: string, second: string): string => JSON.stringify([first, second].sort());

/** Looks up what is known of a pair; a pair without a row is unknown. */
export function compatibilityTable(chart: DrugChart): (first: string, second: string) => Compatibility {
  const table = new Map(chart.compatibility.map((row) => [pairKey(row.first, row.second), row.known]));
  return (first, second) => table.get(pairKey(first, second)) ?? "unknown";
}

/**
 * Whether two infusions may run through one lumen at the same time.
 * Only a pair known to be compatible may, neither of them dedicated; and where the lumen's labelled flow is known, only
 * while both rates are known and their sum is within it. The flush is part of the dose and follows the same rule.
 */
export function mayShare(chart: DrugChart, known: Compatibility, first: Infusion, second: Infusion): boolean {
  if (known !== "compatible" || first.dedicated || second.dedicated) return false;
  if (isMissing(chart.lumenFlowMlPerHour)) return true;
  if (isMissing(first.rateMlPerHour) || isMissing(second.rateMlPerHour)) return false;
  return first.rateMlPerHour + second.rateMlPerHour <= chart.lumenFlowMlPerHour;
}
