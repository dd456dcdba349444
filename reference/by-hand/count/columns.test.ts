import { describe, expect, test } from "vitest";
import {
  countEvents,
  armMap,
  audit,
  checkColumns,
  checkRows,
  checkTable,
  MAP_AXES,
  packRows,
  periodOf,
  QUALITY_RULES,
  ROW_EVENTS,
  rowAt,
  STRATA,
  tableOf,
  type ArmMap,
  type Figure,
  type LineRow,
  type Measure,
  type StratumName,
} from "../../../src/audit/index.ts";
import type { CivilDate } from "../../../src/core/calendar/index.ts";
import { LINE_CLOCKS } from "../../../src/core/dwell/index.ts";
import { uniformFrom } from "../../generated-lines.ts";
import { randomTable } from "../../random-table.ts";
import { countEvents as slowEvents } from "./slow-audit/event-count.ts";
import { slowAudit } from "./slow-audit/slow-audit.ts";
import { slowMap, type HeldInMap } from "./slow-audit/slow-map.ts";
import { houseMeasures, limits, rules, surveillance } from "../../house-rules.ts";

// The count by scans over columns against the count row by row, as it reads: every field of every figure, no tolerance.

const known = houseMeasures;
/** The measures of the house, and each day count and event flag that none of them has. */
const measures: readonly Measure[] = [
  ...known,
  ...LINE_CLOCKS.flatMap((clock): readonly Measure[] =>
    (["any", "clinical", "surveillance", "surveillance without mucosal barrier", "paired culture"] as const).flatMap(
      (flag) => {
        const base = known.find(({ id }) => id === "any-complication") as Measure;
        return [
          { ...base, id: `events ${clock} ${flag}`, clock, numerator: { count: "events", event: "any", flag } },
          { ...base, id: `days ${clock}`, clock, denominator: "none", numerator: { count: "days", of: "line days" } },
          { ...base, id: `idle ${clock}`, clock, numerator: { count: "days", of: "idle days" } },
        ] as const;
      },
    ),
  ),
];
const PERIODS = [
  ["2024-01-01", "2026-12-31"],
  ["2024-06-01", "2024-07-01"],
  ["2025-03-01", "2025-06-11"],
  ["2026-01-01", "2026-02-01"],
  ["2019-01-01", "2019-02-01"],
] as const;

const broken = new Set<string>();

describe.each(Array.from({ length: 16 }, (_, seed) => seed + 1))("of odd table %i", (seed) => {
  const drawn = randomTable(seed, seed % 6 === 0 ? 3 : 50 * seed);
  const table = { ...drawn, lines: drawn.lines.map(withoutDays) };

  test("the columns give back every row", () => {
    const packed = packRows(table);
    expect(table.lines.map((_, at) => rowAt(packed, at))).toEqual(table.lines);
    const again = tableOf(packed);
    expect({ ...again, lines: again.lines, referrals: again.referrals }).toStrictEqual(table);
  });

  test("the scans find what the rules find in every row", () => {
    const slow = checkRows(table, limits, surveillance);
    const quick = checkColumns(table, limits, surveillance);
    expect(quick.issues).toEqual(slow.issues);
    expect(quick.used).toBe(slow.facts.length);
    const kept = table.lines.filter((_, at) => quick.stopped[at] === 0);
    expect(kept.map(({ key }) => key)).toEqual(slow.facts.map(({ row }) => row.key));
    expect(checkTable(table, limits, surveillance)).toEqual(slow);
    // what is held is so in the columns, and the table's own columns are as they were
    const own = table.lines.flatMap((_, at) => (quick.stopped[at] === 0 ? [rowAt(quick.facts.lines, at)] : []));
    expect(own).toEqual(slow.facts.map(({ row }) => row));
    const packed = packRows(table);
    expect(checkColumns(tableOf(packed), limits, surveillance).issues).toEqual(slow.issues);
    expect(table.lines.map((_, at) => rowAt(packed, at))).toEqual(table.lines);
    for (const { code } of slow.issues) broken.add(code);
  });

  test("the map of the arm is the same on both axes", () => {
    const period = periodOf(table, "2024-06-01" as CivilDate, "2025-06-11" as CivilDate);
    for (const measure of known.filter(({ numerator }) => numerator.count === "events"))
      for (const axis of MAP_AXES)
        expect(heldIn(armMap(table, measure, period, axis, rules))).toEqual(
          slowMap(table, measure, period, axis, rules),
        );
  });

  test("the events of rows, one by one, are those of the definitions", () => {
    const { facts } = checkRows(table, limits, surveillance);
    for (const [from, to] of PERIODS)
      for (const { numerator } of measures) {
        if (numerator.count !== "events") continue;
        const period = periodOf(table, from as CivilDate, to as CivilDate);
        expect(placesOf(countEvents(facts, numerator, period, surveillance))).toEqual(
          placesOf(slowEvents(facts, numerator, period, surveillance)),
        );
      }
  });

  test("every figure is the same, whole and in parts, in every period", () => {
    const u = uniformFrom(seed);
    for (const [from, to] of PERIODS) {
      const strata: readonly StratumName[] = STRATA.filter(() => u() < 0.5);
      const period = periodOf(table, from as CivilDate, to as CivilDate);
      const ours = audit(table, measures, period, strata, rules);
      const theirs = slowAudit(table, measures, period, strata, rules);
      expect(ours.figures.length).toBe(theirs.figures.length);
      for (const [at, figure] of ours.figures.entries())
        expect(inOrder(figure)).toEqual(inOrder(theirs.figures[at] as Figure));
      expect({ ...ours, figures: [] }).toEqual({ ...theirs, figures: [] });
    }
  });
});

// of a person whose lines lie in two parts a repeat once counted for itself in the part and not in the whole
test.each(Array.from({ length: 16 }, (_, seed) => seed + 1))(
  "of odd table %i the parts of every split add up to the whole, event by event",
  (seed) => {
    const table = randomTable(seed, seed % 6 === 0 ? 3 : 50 * seed);
    for (const [from, to] of PERIODS) {
      const { figures } = audit(
        table,
        eventMeasures,
        periodOf(table, from as CivilDate, to as CivilDate),
        STRATA,
        rules,
      );
      for (const { id } of eventMeasures) {
        const own = figures.filter(({ measure }) => measure === id);
        const whole = own.find(({ stratum }) => !stratum) as Figure;
        for (const by of STRATA) expect({ id, by, ...added(own, by) }).toEqual({ id, by, ...told(whole) });
      }
    }
  },
);

const eventMeasures = measures.filter(({ numerator }) => numerator.count === "events");
const told = ({ numerator, provisional, missing, lines }: Figure) => ({
  numerator,
  provisional,
  missing: missing.count,
  lines: [...lines].sort(),
});
const added = (figures: readonly Figure[], by: StratumName) => {
  const parts = figures.filter(({ stratum }) => stratum?.by === by).map(told);
  const sum = (of: "numerator" | "provisional" | "missing") => parts.reduce((all, part) => all + part[of], 0);
  return {
    numerator: sum("numerator"),
    provisional: sum("provisional"),
    missing: sum("missing"),
    lines: parts.flatMap(({ lines }) => lines).sort(),
  };
};
/** Every seventh line has one or two kinds of event of which only the day is not known. */
function withoutDays(line: LineRow, at: number): LineRow {
  const [first, second] = [at % ROW_EVENTS.length, (at * 3) % ROW_EVENTS.length].sort((a, b) => a - b);
  const undated = ROW_EVENTS.filter((_, kind) => kind === first || (kind === second && at % 2 === 0));
  return at % 7 === 3 ? { ...line, undated } : line;
}

/** Which lines have a counted event on which day, and which may have one. */
const placesOf = ({ counted, mayCount }: ReturnType<typeof countEvents>) =>
  [counted, mayCount].map((events) => events.map(({ line, on }) => `${line.row.key} ${on}`).sort());

/** What a map holds before it is smoothed; the smoothing has checks of its own (reference/independent/shrinkage). */
const heldIn = ({ cells, used, given }: ArmMap): HeldInMap => ({
  cells: cells.map(({ events, lineDays }) => ({ events, lineDays })),
  used,
  given,
});

/** In which order the lines of a figure are named is no part of it. */
function inOrder(figure: Figure): Figure {
  return { ...figure, lines: [...figure.lines].sort() };
}

test("in the odd tables every rule is broken", () => {
  expect([...broken].sort()).toEqual(Object.keys(QUALITY_RULES).sort());
});
