import { suppressSmallCells, type ShownCell, type SuppressedTable } from "../../src/core/disclosure/index.ts";
import { checkAgainst } from "../check.ts";
import { seededNumbers } from "./seeded-numbers.ts";

const rule = { smallestShown: 3, rowTotals: true, columnTotals: true };
/** No generated count comes near this, so a cell that reaches it in the search is free to grow. */
const SEARCH_UP_TO = 40;

/**
 * What a patient reader finds: every table of whole numbers that fits the printed one, tried one by one. Withheld cells are
 * not zero. Returns the least and most of every interior cell.
 */
function everyTable(shown: SuppressedTable): { least: number[]; most: number[] } {
  const [first, second] = shown.cells as [readonly ShownCell[], readonly ShownCell[]];
  const columns = first.length;
  const least = Array.from({ length: 2 * columns }, () => Infinity);
  const most = Array.from({ length: 2 * columns }, () => -Infinity);
  const fits = (printed: ShownCell | undefined, value: number) =>
    printed === "withheld" ? value > 0 : printed === value;
  const fill = (column: number, upper: readonly number[], lower: readonly number[]): void => {
    if (column === columns) {
      const [top, bottom] = [upper, lower].map((row) => row.reduce((sum, value) => sum + value, 0)) as [number, number];
      if (!fits(shown.rowTotals?.[0], top) || !fits(shown.rowTotals?.[1], bottom) || !fits(shown.total, top + bottom))
        return;
      [...upper, ...lower].forEach((value, at) => {
        least[at] = Math.min(least[at] as number, value);
        most[at] = Math.max(most[at] as number, value);
      });
      return;
    }
    const options = (printed: ShownCell | undefined) =>
      printed === "withheld" ? Array.from({ length: SEARCH_UP_TO }, (_, at) => at + 1) : [printed as number];
    for (const above of options(first[column]))
      for (const below of options(second[column]))
        if (fits(shown.columnTotals?.[column], above + below)) fill(column + 1, [...upper, above], [...lower, below]);
  };
  fill(0, [], []);
  return { least, most };
}

checkAgainst(
  {
    quantity: "What can be worked out of withheld cells",
    unit: "persons",
    source: "trying every table",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 360,
  },
  (compare) => {
    const { whole } = seededNumbers(91);
    let tables = 0;
    while (tables < 40) {
      const table = [0, 1].map(() => [0, 1, 2].map(() => whole(0, 9)));
      const answer = suppressSmallCells(table, rule);
      // totals withheld leave the search without an end; those tables are in the unit test
      if (answer.withheld.some((cell) => cell.row === "total" || cell.column === "total")) continue;
      if (answer.withheld.length === 0) continue;
      tables += 1;
      const { least, most } = everyTable(answer);
      let unprotected = 0;
      const place = JSON.stringify(table);
      const known = new Map(answer.withheld.map((cell) => [3 * (cell.row as number) + (cell.column as number), cell]));
      for (let at = 0; at < 6; at += 1) {
        const cell = known.get(at);
        const value = table.flat()[at] as number;
        compare(
          `${place}, cell ${at}, width`,
          (cell?.most ?? value) - (cell?.least ?? value),
          (most[at] as number) - (least[at] as number),
        );
        if (value > 0 && value < 3 && (most[at] as number) < 3) unprotected += 1;
      }
      compare(`${place}, small cells a reader can pin down`, unprotected, 0);
      compare(`${place}, least of the first`, known.get(0)?.least ?? (table[0]?.[0] as number), least[0] as number);
      compare(`${place}, most of the last`, known.get(5)?.most ?? (table[1]?.[2] as number), most[5] as number);
    }
  },
);
