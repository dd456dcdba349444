import { parseInstant, type Instant } from "../src/core/calendar/index.ts";
import { careClock, careDue, nextDue, SET_KINDS, type CareClock, type LineCare } from "../src/core/care/index.ts";
import { missing } from "../src/core/missing/index.ts";
import { careLimitsFrom, defaultPolicyTable } from "../src/policy/index.ts";
import { median, type BenchmarkRow } from "./plan.ts";

const LINES = 100_000;

/** The earliest due of 100,000 lines, and that list put in order of need: what a page of today asks first. */
export function benchmarkCare(): readonly BenchmarkRow[] {
  const limits = careLimitsFrom(defaultPolicyTable);
  const now = parseInstant("2025-08-08T12:00+02:00") as Instant;
  const line: LineCare = {
    id: "line",
    setting: "ward",
    person: "a nurse",
    place: "ward 3",
    nextOn: missing("not asked"),
    dressing: { type: "transparent", doneAt: now, state: "sound" },
    connector: { changedAt: now, reason: "none" },
    flushedAt: now,
    sets: [],
    reviewedAt: now,
  };
  const one = careClock(line, now);
  const clocks = Array.from({ length: LINES }, (_, index): CareClock => {
    const days = index % 17;
    return {
      ...one,
      setting: index % 3 === 0 ? "home" : "ward",
      dressing: index % 5 === 0 ? "gauze" : "transparent",
      dressingDay: one.dressingDay - days,
      connectorMin: index % 11 === 0 ? Number.NaN : one.connectorMin - days * 900,
      flushDay: one.flushDay - (index % 9),
      reviewDay: one.reviewDay - (index % 4),
      sets:
        index % 2 === 0
          ? []
          : [{ kind: SET_KINDS[index % SET_KINDS.length] ?? "blood", startedMin: one.connectorMin - days * 60 }],
    };
  });
  const minutes = new Float64Array(LINES);
  const fill = () => {
    for (const [index, clock] of clocks.entries()) minutes[index] = nextDue(clock, limits).dueMin;
  };
  return [
    { name: "the earliest due of 100,000 lines", median: median(15, fill), unit: "ms" },
    { name: "the same, in order of need", median: median(15, () => (fill(), void minutes.sort())), unit: "ms" },
    {
      name: "every care of one line, with dates and reasons",
      median: median(15, () => {
        for (let turn = 0; turn < 1000; turn += 1) careDue(line, now, limits);
      }),
      unit: "us",
    },
  ];
}
