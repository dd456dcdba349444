import { sparseGuards, type RaisedGuard } from "../../core/incidence/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import {
  codedBy,
  watchedLines,
  type AuditRules,
  type Period,
  type StratumName,
  type WatchedLines,
} from "../figure/index.ts";
import type { FollowedLines } from "../follow/index.ts";
import type { AuditTable } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import { NEVER } from "../packed/index.ts";

/** A warning that stands with a figure: how much of it hangs on one, of how much, and the share that is too large. */
export interface Guard {
  readonly guard: RaisedGuard["guard"];
  /** Days, events or ends: of the one, and of all. */
  readonly part: number;
  readonly whole: number;
  readonly limit: number;
}

type GuardLimits = Pick<CountLimits, "guardOneLine" | "guardOnePerson" | "guardOtherEnds" | "guardUnknownEnds">;

/**
 * What must be said before a rate of a period is read: one line with too much of the days, one person with too much of
 * the events. Where a model is read, also how many ends nobody knows: a rate shows them by its bounds, a ratio has none.
 * Units: days of the measure's clock, events. Holds: an event measure with a clock, else RangeError; a rate on one event
 * says so already and is not warned of. Source: as `sparseGuards`. Example: test/specification/guards.test.ts.
 */
export function rateGuards(
  table: AuditTable,
  measure: Measure,
  period: Period,
  rules: AuditRules,
  read: "rate" | "model" = "rate",
): readonly Guard[] {
  return guardsOf(watchedLines(table, measure, period, rules), rules.limits, read);
}

/** A warning that stands with the figure of one part of the lines. */
export interface PartGuard {
  readonly by: StratumName;
  readonly value: string;
  readonly guards: readonly Guard[];
}

/**
 * The warnings of every part of a split, those of quiet parts left out: a small part is soon one line or one person.
 * Units, holds and source: as `rateGuards`, of which this is one for the lines of each part.
 * Example: test/specification/pack-doubt.test.ts.
 */
export function partGuards(
  table: AuditTable,
  measure: Measure,
  period: Period,
  strata: readonly StratumName[],
  rules: AuditRules,
): readonly PartGuard[] {
  const watched = watchedLines(table, measure, period, rules);
  return strata.flatMap((by) => {
    const { codes, names } = codedBy(watched.facts, by, rules.limits);
    const split = (lines: Iterable<number>): readonly (readonly number[])[] => {
      const parts: number[][] = names.map(() => []);
      for (const line of lines) parts[codes[line] as number]?.push(line);
      return parts;
    };
    const events = split(watched.eventLines);
    return split(watched.lines).flatMap((lines, at): readonly PartGuard[] => {
      const part = { ...watched, lines: Int32Array.from(lines), eventLines: events[at] as readonly number[] };
      const guards = guardsOf(part, rules.limits, "rate");
      return guards.length === 0 ? [] : [{ by, value: names[at] as string, guards }];
    });
  });
}

function guardsOf(
  { facts, lines, daysOf, eventLines }: WatchedLines,
  limits: GuardLimits,
  read: "rate" | "model",
): readonly Guard[] {
  const daysByLine: number[] = [];
  const unknown = new Set(read === "model" ? facts.unknown : []);
  let [ends, unknownEnds] = [0, 0];
  for (const line of lines) {
    const days = daysOf(line);
    if (days <= 0) continue;
    daysByLine.push(days);
    if (unknown.has(line)) unknownEnds += 1;
    if (unknown.has(line) || facts.endedOn[line] !== NEVER) ends += 1;
  }
  const people = new Map<number, number>();
  for (const line of eventLines) {
    const patient = facts.lines.patient[line] as number;
    people.set(patient, (people.get(patient) ?? 0) + 1);
  }
  return raised({ daysByLine, eventsByPerson: [...people.values()], ends, otherEnds: 0, unknownEnds }, limits);
}

/**
 * The same before a curve is read, with the ends: those that came another way first, and those nobody knows.
 * Units: days, events, lines. Holds: followed lines of any number. Source: as `sparseGuards`; Example: as `rateGuards`.
 */
export function curveGuards({ follow, lines }: FollowedLines, limits: GuardLimits): readonly Guard[] {
  const people = new Map<string, number>();
  let [ends, otherEnds, unknownEnds] = [0, 0, 0];
  for (const [at, { row }] of lines.entries()) {
    const end = follow.end[at] as number;
    if (end === 1) people.set(row.patient, (people.get(row.patient) ?? 0) + 1);
    const noReason = row.end.kind === "removed" && isMissing(row.end.reason);
    const lost = end === 0 ? row.end.kind === "unknown" : end === 2 && noReason;
    if (end > 0 || lost) ends += 1;
    if (lost) unknownEnds += 1;
    else if (end === 2) otherEnds += 1;
  }
  return raised(
    {
      daysByLine: lines.map((_, at) => (follow.exit[at] as number) - (follow.entry[at] as number)),
      eventsByPerson: [...people.values()],
      ends,
      otherEnds,
      unknownEnds,
    },
    limits,
  );
}

function raised(seen: Parameters<typeof sparseGuards>[0], limits: GuardLimits): readonly Guard[] {
  const sum = (parts: readonly number[]) => parts.reduce((all, part) => all + part, 0);
  const most = (parts: readonly number[]) => parts.reduce((largest, part) => Math.max(largest, part), 0);
  const parts: Readonly<Record<RaisedGuard["guard"], readonly [part: number, whole: number]>> = {
    daysOfOneLine: [most(seen.daysByLine), sum(seen.daysByLine)],
    eventsOfOnePerson: [most(seen.eventsByPerson), sum(seen.eventsByPerson)],
    otherEnds: [seen.otherEnds, seen.ends],
    unknownEnds: [seen.unknownEnds, seen.ends],
  };
  return (
    sparseGuards(seen, {
      daysOfOneLine: limits.guardOneLine,
      eventsOfOnePerson: limits.guardOnePerson,
      otherEnds: limits.guardOtherEnds,
      unknownEnds: limits.guardUnknownEnds,
    })
      .map(({ guard, limit }) => ({ guard, part: parts[guard][0], whole: parts[guard][1], limit }))
      // one event is always somebody's: that two or more are one person's is what must be known
      .filter(({ guard, part }) => guard !== "eventsOfOnePerson" || part > 1)
  );
}
