/** Words in the order they were first seen, each with its place. */
export interface WordList {
  readonly words: string[];
  readonly codeOf: (word: string) => number;
}

export function wordList(known: readonly string[] = []): WordList {
  const words = [...known];
  const places = new Map(words.map((word, at) => [word, at]));
  return {
    words,
    codeOf: (word) => {
      const at = places.get(word);
      if (at !== undefined) return at;
      places.set(word, words.length);
      return words.push(word) - 1;
    },
  };
}
