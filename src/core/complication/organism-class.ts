import { organismKey } from "./culture-bottle.ts";
import type { SurveillanceDefinition } from "./surveillance-definition.ts";

export type OrganismClass = "pathogen" | "commensal" | "excluded" | "not listed";

type Organisms = Pick<SurveillanceDefinition, "organisms">;

/**
 * What a definition's lists call an organism; the longest name that fits decides, so a species listed as a pathogen is one
 * although its genus is a commensal. A name on no list is asked about, never guessed.
 * Holds: names as the laboratory writes them, without case. Source: the definition's row. Example: "Staphylococcus
 * epidermidis" is a commensal, "Staphylococcus aureus" a pathogen, "Corynebacterium diphtheriae" a pathogen.
 */
export function classOfOrganism(name: string, { organisms }: Organisms): OrganismClass {
  const key = organismKey(name);
  const fit = (names: readonly string[]) =>
    Math.max(0, ...names.map((one) => (beginsWith(key, organismKey(one)) ? one.trim().length : 0)));
  const fits = [
    ["excluded", fit(organisms.excluded)],
    ["pathogen", fit(organisms.pathogens)],
    ["commensal", fit(organisms.commensals.flatMap(({ name: group, covers }) => [group, ...covers]))],
  ] as const;
  const longest = Math.max(...fits.map(([, length]) => length));
  return longest === 0 ? "not listed" : (fits.find(([, length]) => length === longest)?.[0] ?? "not listed");
}

/** Same commensal: the same name, or one is the group that covers the other. Two species of one group are two. */
export function sameCommensal(one: string, other: string, definition: Organisms): boolean {
  const [a, b] = [organismKey(one), organismKey(other)];
  if (a === b) return true;
  const group = groupOf(a, definition);
  return group !== undefined && group === groupOf(b, definition) && (a === group || b === group);
}

/** The group a name belongs to, by its own name or a species it covers. */
const groupOf = (key: string, { organisms }: Organisms): string | undefined =>
  organisms.commensals
    .map(({ name, covers }) => ({ name: organismKey(name), covers: covers.map(organismKey) }))
    .find(({ name, covers }) => key === name || covers.some((one) => beginsWith(key, one)))?.name;

const beginsWith = (key: string, start: string): boolean => key === start || key.startsWith(`${start} `);
