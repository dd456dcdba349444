import { expect, test } from "vitest";
import { suppressSmallCells } from "./index.ts";

const list = { smallestShown: 5, rowTotals: true, columnTotals: false };
const both = { smallestShown: 5, rowTotals: true, columnTotals: true };

test("a small cell of a list takes the cheapest neighbour with it", () => {
  const answer = suppressSmallCells([[2, 8, 9]], list);
  expect(answer).toMatchObject({ cells: [["withheld", "withheld", 9]], rowTotals: [19], total: 19 });
  expect(answer).not.toHaveProperty("columnTotals");
  // the two add to 10 and neither is zero
  expect(answer.withheld).toEqual([
    { row: 0, column: 0, least: 1, most: 9, small: true },
    { row: 0, column: 1, least: 1, most: 9, small: false },
  ]);
});

test("in a table with both totals a rectangle is withheld", () => {
  const answer = suppressSmallCells(
    [
      [2, 20, 30],
      [40, 9, 50],
      [60, 70, 80],
    ],
    both,
  );
  expect(answer).toMatchObject({
    cells: [
      ["withheld", "withheld", 30],
      ["withheld", "withheld", 50],
      [60, 70, 80],
    ],
    total: 361,
  });
});

test("zeros and large cells are printed, and a table without small cells is left alone", () => {
  expect(
    suppressSmallCells(
      [
        [0, 5],
        [7, 0],
      ],
      both,
    ),
  ).toMatchObject({
    cells: [
      [0, 5],
      [7, 0],
    ],
    withheld: [],
  });
});

test("without totals a small cell needs no cover", () => {
  const answer = suppressSmallCells([[2, 8]], { smallestShown: 5, rowTotals: false, columnTotals: false });
  expect(answer).toMatchObject({ cells: [["withheld", 8]], withheld: [{ most: Infinity }] });
});

test("totals that give a small cell away are withheld with it", () => {
  expect(suppressSmallCells([[2]], list)).toMatchObject({
    cells: [["withheld"]],
    rowTotals: ["withheld"],
    total: "withheld",
  });
  const answer = suppressSmallCells(
    [
      [2, 0],
      [0, 30],
    ],
    both,
  );
  expect(answer).toMatchObject({
    cells: [
      ["withheld", 0],
      [0, 30],
    ],
    rowTotals: ["withheld", 30],
    total: "withheld",
  });
  expect(answer.withheld.filter((cell) => cell.small).every((cell) => cell.most >= 5)).toBe(true);
});

test("impossible tables are refused", () => {
  expect(() => suppressSmallCells([], both)).toThrow(/one length/);
  expect(() => suppressSmallCells([[1], [1, 2]], both)).toThrow(/one length/);
  expect(() => suppressSmallCells([[1.5]], both)).toThrow(/1.5/);
  expect(() => suppressSmallCells([[1]], { ...both, smallestShown: 1 })).toThrow(/from 2 up/);
});
