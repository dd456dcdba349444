import { expect, test } from "vitest";
import { refusalSentences, rowFaultSentences } from "./spreadsheet.ts";

test("no sentence about a spreadsheet is longer than 15 words", () => {
  const sentences = [...Object.values(refusalSentences), ...Object.values(rowFaultSentences)].flatMap((text) =>
    text.split(/(?<=[.?]) /),
  );
  expect(sentences.length).toBeGreaterThan(60);
  expect(sentences.filter((sentence) => sentence.split(" ").length > 15)).toEqual([]);
});
