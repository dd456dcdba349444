/** Said instead of every answer when a golden number is off. */
export const selfTestSentence = (failures: readonly string[]): string =>
  `A golden number is off (${failures.join(", ")}). Nothing is calculated. Get a fresh copy.`;
