import { NEEDS, type Entry, type Fields, type Need } from "./field.ts";

export interface MissingField {
  readonly field: string;
  readonly need: Need;
  /** Copied from a plan and not confirmed, absent for one of the four reasons, or never asked. */
  readonly why: "from plan" | "not known" | "not asked" | "not measured" | "refused";
}

/** What an entry lacks, what matters most first. "Refused" and "not known" are answers: they stand last of their need. */
export function missingFields(fields: Fields, entry: Entry): readonly MissingField[] {
  const missing = Object.entries(fields).flatMap(([field, { need }]): MissingField[] => {
    const recorded = entry[field];
    if (recorded === undefined) return [{ field, need, why: "not asked" }];
    if ("missing" in recorded) return [{ field, need, why: recorded.missing }];
    return recorded.from === "plan" ? [{ field, need, why: "from plan" }] : [];
  });
  const rank = ({ need, why }: MissingField) =>
    NEEDS.indexOf(need) * 2 + (why === "not known" || why === "refused" ? 1 : 0);
  return missing.sort((a, b) => rank(a) - rank(b));
}
