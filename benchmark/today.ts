import { civilDateOf, type Instant } from "../src/core/calendar/index.ts";
import {
  careLimitsFrom,
  defaultPolicyTable,
  idleLimitsFrom,
  releasePolicyFrom,
  removalLimitsFrom,
} from "../src/policy/index.ts";
import { practiceRecord } from "../src/practice/index.ts";
import {
  answerLine,
  evolveHistory,
  initialHistory,
  lineView,
  todayList,
  todayRow,
  type History,
  type Subject,
  type TodayRow,
} from "../src/register/index.ts";
import { median, type BenchmarkRow } from "./plan.ts";

const LINES = 100_000;
const NOW = "2026-11-25T09:00+00:00" as Instant;

/** The day's list of 100,000 lines: from their rows, and from their whole histories. The invented lines, many times over. */
export function benchmarkToday(): readonly BenchmarkRow[] {
  const rules = {
    release: releasePolicyFrom(defaultPolicyTable),
    care: careLimitsFrom(defaultPolicyTable),
    idle: idleLimitsFrom(defaultPolicyTable),
    removal: removalLimitsFrom(defaultPolicyTable),
  };
  const histories = new Map<Subject, History>();
  let position = 0;
  for (const event of practiceRecord(civilDateOf(NOW), "+00:00")) {
    const before = histories.get(event.subject) ?? initialHistory(event.subject);
    position += 1;
    const stored = { ...event, position, version: before.version + 1, chainHash: "" };
    histories.set(event.subject, evolveHistory(before, stored));
  }
  const lines = [...histories.values()].filter(({ subject }) => subject.startsWith("line:"));
  const rowOf = (history: History): TodayRow | undefined => {
    const view = lineView(history);
    return todayRow(view, answerLine(view, { arm: undefined, number: undefined }, NOW, NOW, rules), []);
  };
  const kinds = lines.map(rowOf).filter((row) => row !== undefined);
  const rows = Array.from({ length: LINES }, (_, at): TodayRow => ({ ...(kinds[at % kinds.length] as TodayRow) }));
  return [
    {
      name: "today's list of 100,000 lines, from their rows",
      median: median(15, () => void todayList(rows, civilDateOf(NOW))),
      unit: "ms",
    },
    {
      name: "the row of one line, from its whole history",
      median: (median(15, () => void lines.map(rowOf)) * 1000) / lines.length,
      unit: "us",
    },
  ];
}
