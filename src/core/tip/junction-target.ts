import type { TipPolicy } from "./tip-policy.ts";

export interface JunctionTarget {
  readonly name: string;
  readonly source: string;
  readonly people: string;
  /** Carina to junction; undefined where the series speaks in units and the film shows none. */
  readonly cm: number | undefined;
  readonly sdCm: number | undefined;
  /** Whether its central value counts here. */
  readonly enabled: boolean;
}

/**
 * The published distances from the carina down to the junction, for an age. A child's stand in vertebral units by age
 * and only those count; an adult's are those local policy enabled. Distances in cm below the carina.
 * Source: each series; children, Hirschl 2020 (Pediatr Surg Int, 584 CTs): 1.25, 1.27, 1.34, 1.53, 1.64 units.
 */
export function junctionTargets(
  ageYears: number,
  unitCm: number | undefined,
  policy: TipPolicy,
): readonly JunctionTarget[] {
  if (ageYears < policy.adultFromYears) {
    const units = unitsForChild(ageYears, policy);
    return [
      {
        name: "Hirschl 2020",
        source: "Hirschl 2020, Pediatr Surg Int",
        people: "584 children, CT",
        cm: unitCm === undefined ? undefined : units * unitCm,
        sdCm: undefined,
        enabled: true,
      },
    ];
  }
  return policy.series.map(({ name, source, people, centre, sdCm }) => ({
    name,
    source,
    people,
    cm: "cm" in centre ? centre.cm : centre.units * (unitCm ?? policy.unitCm),
    sdCm,
    enabled: policy.enabled.includes(name),
  }));
}

/** Vertebral units from the carina to the junction for a child's age in years. */
export function unitsForChild(ageYears: number, policy: Pick<TipPolicy, "childUnits">): number {
  // the bands stand in order of age, the first from birth
  let found = Number.NaN;
  for (const { fromYears, units } of policy.childUnits) if (ageYears >= fromYears) found = units;
  return found;
}
