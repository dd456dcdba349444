import type { LookAlikeReason } from "../../core/identity/index.ts";

/** Two people who could be taken for each other, and why. */
export function lookAlikeSentence(
  other: { readonly name: string; readonly identifier: string },
  reasons: readonly LookAlikeReason[],
): string {
  return `Looks like another patient on this device: ${other.name}, no. ${other.identifier}. ${capital(reasons.join(", "))}. Check both identifiers.`;
}

export const measureAgain = "measure again";

/** The machine's clock stands before the last entry; ages and due dates would be wrong. */
export const clockSentence = (lastEntry: string): string =>
  `This machine's clock is before the last entry (${lastEntry.slice(0, 16)}). Set the clock first.`;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
