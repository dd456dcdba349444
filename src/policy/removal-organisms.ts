/**
 * Beginnings of the names of organisms that speak for taking a line out.
 * Source: Mermel LA and others 2009, Clin Infect Dis 49:1, removal of long-term catheters (from memory).
 */
export const removalOrganisms: readonly string[] = [
  "staphylococcus aureus",
  "pseudomonas aeruginosa",
  "candida",
  "mycobacterium",
];
