/**
 * One row per line (or per stretch of a line): from entry to exit, and how it ended.
 * Times are elapsed times since insertion in any one unit, days by habit, and are compared exactly: round first if
 * nearly equal times are meant to be ties. At equal times events come before censoring, and a row is at risk at its
 * own exit; a row that enters at u is at risk only after u.
 */
export interface FollowUp {
  /** Time since insertion at which observation began; absent means from the start. */
  readonly entry?: ArrayLike<number>;
  readonly exit: ArrayLike<number>;
  /** 0 censored, or 1, 2, ... for the kinds of end. */
  readonly end: ArrayLike<number>;
  /** 0, 1, ... for the group of the row; absent means one group. */
  readonly group?: ArrayLike<number>;
}

export interface Shape {
  readonly rows: number;
  readonly groups: number;
  readonly kinds: number;
}

const wholeBelow = (value: number, ceiling: number): boolean =>
  Number.isInteger(value) && value >= 0 && value < ceiling;

/** Far above any sensible number of groups or kinds; a code beyond it is a slip, not a design. */
const MOST_CODES = 10_000;

/** Counts rows, groups and kinds of end. RangeError, with the row, for anything that cannot be followed up. */
export function checkFollowUp(follow: FollowUp): Shape {
  const rows = follow.exit.length;
  let groups = 1;
  let kinds = 1;
  for (const [name, column] of Object.entries(follow) as [string, ArrayLike<number> | undefined][]) {
    if (column !== undefined && column.length !== rows) {
      throw new RangeError(`There are ${rows} exits and ${column.length} of ${name}; give one of each for every row.`);
    }
  }
  for (let i = 0; i < rows; i += 1) {
    const exit = follow.exit[i] as number;
    const end = follow.end[i] as number;
    const group = follow.group?.[i] ?? 0;
    if (!(exit >= 0 && exit < Infinity)) {
      throw new RangeError(`Row ${i + 1} leaves at ${exit}; an exit is a finite time of zero or more.`);
    }
    if (follow.entry !== undefined && !((follow.entry[i] as number) < exit)) {
      throw new RangeError(`Row ${i + 1} enters at ${follow.entry[i]} and leaves at ${exit}; entry comes first.`);
    }
    if (!wholeBelow(end, MOST_CODES) || !wholeBelow(group, MOST_CODES)) {
      throw new RangeError(`Row ${i + 1} has end ${end} and group ${group}; both are whole numbers from zero.`);
    }
    if (end > kinds) kinds = end;
    if (group >= groups) groups = group + 1;
  }
  return { rows, groups, kinds };
}
