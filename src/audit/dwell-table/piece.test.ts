import { describe, expect, test } from "vitest";
import { randomTable } from "../../../reference/random-table.ts";
import { packReferrals, rowAt } from "../packed/index.ts";
import { linePiece, PIECE } from "./fold-pieces.ts";
import { joinPieces } from "./join-pieces.ts";

// What a row may have and need not: its checks must come out of the bytes of a piece as they went in, or not at all.

describe.each([1, 2, 3, 4, 5, 7, 8, 9])("of odd table %i", (seed) => {
  const table = randomTable(seed, 40 * seed);
  const bare = table.lines.map((row) => {
    const { checks, ...rest } = row;
    return checks ? rest : row;
  });

  test.each([
    ["rows as they are", [table.lines]],
    ["rows without checks", [bare]],
    ["a piece without checks before one that has them, and an empty one between", [bare, [], table.lines]],
  ])("%s", (_, pieces) => {
    const data = pieces.map(
      (rows, at) => linePiece(at, new Map(rows.slice(0, PIECE).map((row, slot) => [slot, { row, person: slot }]))).data,
    );
    const all = pieces.flat();
    const joined = joinPieces(data, table.asOf, packReferrals([]));
    expect(all.map((_row, at) => rowAt(joined, at))).toStrictEqual(all);
    expect(joined.checks === undefined).toBe(all.every((row) => !("checks" in row)));
  });
});
