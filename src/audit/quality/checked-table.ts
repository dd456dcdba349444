import type { Stay, SurveillanceRule } from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { AuditTable, DatedEvent, LineFacts, LineRow } from "../line/index.ts";
import { NEVER, rowAt, type PackedFacts } from "../packed/index.ts";
import { checkColumns, type CheckedColumns } from "./check-packed.ts";
import type { CheckedTable } from "./check-table.ts";

const CHECKED = new WeakMap<CheckedColumns, CheckedTable>();

/**
 * The quality rules over a table, with the facts of each row no stop rule took out, as the models and charts read them.
 * The rules run over the columns; the facts are read off them, in the words of `lineFacts`.
 * Holds: any rows; the same answer as `checkRows`. Source: as `checkRows`.
 */
export function checkTable(table: AuditTable, limits: CountLimits, rule: SurveillanceRule): CheckedTable {
  const columns = checkColumns(table, limits, rule);
  const checked = CHECKED.get(columns) ?? read(table, columns);
  CHECKED.set(columns, checked);
  return checked;
}

function read(table: AuditTable, { issues, facts, stopped, held }: CheckedColumns): CheckedTable {
  const kept: LineFacts[] = [];
  for (const [line, row] of table.lines.entries())
    if (stopped[line] === 0)
      kept.push(factsOf(held.has(line) ? rowAt(facts.lines, line) : row, line, facts, table.asOf));
  return { issues, facts: kept, linesGiven: table.lines.length };
}

/** The facts of a row off the columns; a row that was not stopped has a placing, and a stay unless its times are coarse. */
function factsOf(row: LineRow, line: number, facts: PackedFacts, asOf: AuditTable["asOf"]): LineFacts {
  const { end, patient } = row;
  const inserted = row.knownFrom ?? row.placed;
  const stayTo = (last: typeof asOf): Stay | undefined =>
    inserted && {
      patient,
      inserted,
      end:
        end.kind === "removed" || end.kind === "handed on"
          ? { kind: "removed", at: end.at }
          : { kind: "in place", lastKnown: last },
    };
  const timed = !Number.isNaN(facts.stays.from[line]);
  const whole = stayTo(end.kind === "removed" || end.kind === "handed on" ? end.at : end.lastKnown);
  const dwell = facts.dwellDays[line] as number;
  return {
    row,
    stay: timed ? whole : undefined,
    longest: !timed ? undefined : end.kind === "unknown" ? stayTo(asOf) : whole,
    placedOn: dayOf(facts.placedOn, line),
    endedOn: dayOf(facts.endedOn, line),
    dwellDays: Number.isNaN(dwell) ? undefined : dwell,
    events: row.events.length === 0 ? NONE : eventsOf(row, line, facts),
  };
}

const NONE: readonly DatedEvent[] = [];

const dayOf = (column: Int32Array, line: number): number | undefined =>
  column[line] === NEVER ? undefined : column[line];

function eventsOf(
  { events }: LineRow,
  line: number,
  { lines, eventOn, eventOutside, eventEligible }: PackedFacts,
): readonly DatedEvent[] {
  const first = lines.events.from[line] as number;
  return events.map((event, at) => ({
    event,
    on: eventOn[first + at] as number,
    outside: eventOutside[first + at] === 1,
    eligible: eventEligible[first + at] === 1,
  }));
}
