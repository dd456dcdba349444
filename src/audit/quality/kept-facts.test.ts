import { expect, test } from "vitest";
import { randomTable } from "../../../reference/random-table.ts";
import { missing } from "../../core/missing/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../policy/index.ts";
import type { LineFacts } from "../line/index.ts";
import { isAbsent, packedFacts, packedOf, rowAt } from "../packed/index.ts";
import { checkRows } from "./index.ts";
import { keptFacts } from "./kept-facts.ts";

// A check of rows may take a row out, hold a value, take a stay or strike an event: the columns must say the same.

const limits = countLimitsFrom(defaultPolicyTable);
const rule = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];

test("what a check of rows took, held and struck is so in the columns, and nothing else is", () => {
  const table = randomTable(5, 300);
  const facts = packedFacts(packedOf(table), limits, rule);
  const HELD = missing("not known");
  const kept = checkRows(table, limits, rule).facts.map((own, at): LineFacts => {
    if (at % 3 === 0) return { ...own, row: { ...own.row, sizeFr: HELD, lumens: HELD, ward: HELD } };
    if (at % 5 === 0) return { ...own, stay: undefined, longest: undefined, dwellDays: undefined };
    if (at % 7 === 0) return { ...own, events: own.events.map((event) => ({ ...event, outside: true })) };
    return own;
  });
  const stopped = new Uint8Array(table.lines.length).fill(1);
  const after = keptFacts(facts, table, kept, stopped);
  let next = 0;
  for (const [line, row] of table.lines.entries()) {
    if (stopped[line] === 1) continue;
    const own = kept[next] as LineFacts;
    next += 1;
    expect(own.row.key).toBe(row.key);
    expect(rowAt(after.lines, line)).toEqual(own.row);
    expect(Number.isNaN(after.stays.from[line])).toBe(own.stay === undefined);
    expect(after.dwellDays[line]).toBe(own.dwellDays ?? Number.NaN);
    const first = after.lines.events.from[line] as number;
    for (const [at, { outside }] of own.events.entries()) expect(after.eventOutside[first + at]).toBe(Number(outside));
    // a held size leaves the ratio to what was written of it
    const ratio = after.ratio[line] as number;
    if (own.row.sizeFr === HELD) expect(ratio).toBe(after.lines.numbers.writtenRatio[line]);
    else expect(isAbsent(ratio) && !isAbsent(facts.ratio[line] as number)).toBe(false);
  }
  expect(next).toBe(kept.length);
  // the table's own columns are as they were
  expect(rowAt(packedOf(table), 0)).toEqual(table.lines[0]);
});
