/**
 * Everything a rule may ask about a patient, each with the answers it may have. A need is turned into these once, so that
 * a rule is plain data and every fact can be moved in turn to see what would change the answer.
 */
export const FACTS = {
  /** Planned days, in the bands of the patient's age group. */
  band: ["short", "middle", "long", "longest"],
  /** The most demanding of the infusates. */
  route: ["peripheral", "central"],
  vesicant: ["yes", "no"],
  againstCancer: ["yes", "no"],
  nutrition: ["yes", "no"],
  criticallyIll: ["yes", "no"],
  setting: ["ward", "intensive care", "home", "nursing home", "no fixed place"],
  cancer: ["none", "solid", "blood"],
  urgent: ["yes", "no"],
  cycles: ["none", "under 3 months", "3 to 6 months", "6 months or more"],
  kidney: ["open", "assess", "barred"],
  pregnancy: ["yes", "no"],
  armBars: ["none", "one arm", "both arms"],
  sampling: ["none", "seldom", "often"],
  difficultVeins: ["yes", "no"],
  carer: ["somebody", "nobody"],
  oral: ["not possible", "possible"],
  endOfLife: ["yes", "no"],
  purpose: ["therapy", "monitoring", "access only", "sampling only", "request only"],
  admissions: ["few", "many"],
} as const;

export type FactName = keyof typeof FACTS;
export type FactValue<Name extends FactName> = (typeof FACTS)[Name][number];
export type Band = FactValue<"band">;

/** The facts that are known; an absent one has not been answered. */
export type Facts = { readonly [Name in FactName]?: FactValue<Name> };

/** Every fact named must have one of the values listed. */
export type Condition = { readonly [Name in FactName]?: readonly FactValue<Name>[] };

export const FACT_NAMES = Object.keys(FACTS) as readonly FactName[];

/** A condition on a fact that nobody has answered does not hold. */
export function holds(condition: Condition, facts: Facts): boolean {
  for (const name in condition) {
    const value = facts[name as FactName];
    const listed = condition[name as FactName] as readonly string[];
    if (value === undefined || !listed.includes(value)) return false;
  }
  return true;
}
