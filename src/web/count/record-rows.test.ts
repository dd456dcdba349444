import { expect, test } from "vitest";
import { lineRowsFromRegister } from "../../audit/index.ts";
import type { CivilDate, Instant } from "../../core/calendar/index.ts";
import { cultureLimitsFrom, defaultPolicy } from "../../policy/index.ts";
import { lineRulesFrom } from "../../paper/line/index.ts";
import { practiceRecord } from "../../practice/index.ts";
import {
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  referralView,
  type History,
  type StoredEvent,
  type Subject,
} from "../../register/index.ts";
import { recordTable } from "./record-rows.ts";

// What is kept of a line against the whole record folded anew; a row that is the same object was not folded again.

const NOW = "2026-11-26T11:02+00:00" as Instant;
const SOON = "2026-11-26T11:09+00:00" as Instant;
const TOMORROW = "2026-11-27T11:02+00:00" as Instant;

function practiceHistories(): Map<Subject, History> {
  const histories = new Map<Subject, History>();
  for (const [at, event] of practiceRecord("2026-11-26" as CivilDate, "+00:00").entries()) {
    const before = histories.get(event.subject) ?? initialHistory(event.subject);
    const stored: StoredEvent = { ...event, position: at + 1, version: before.version + 1, chainHash: "" };
    histories.set(event.subject, evolveHistory(before, stored));
  }
  return histories;
}

function whole(histories: ReadonlyMap<Subject, History>, now: Instant) {
  const of = (kind: string) => [...histories.values()].filter(({ subject }) => subject.startsWith(`${kind}:`));
  return lineRowsFromRegister(
    {
      lines: of("line").map(lineView),
      referrals: of("referral").map(referralView),
      patients: new Map(of("patient").map((history) => [history.subject, patientView(history)])),
      rules: lineRulesFrom(defaultPolicy),
      cultures: cultureLimitsFrom(defaultPolicy.table),
      keyOf: (_, name) => name.slice(name.indexOf(":") + 1),
    },
    now,
  );
}

/** The same histories with one of them written on. */
function writtenOn(histories: ReadonlyMap<Subject, History>, subject: Subject): Map<Subject, History> {
  const history = histories.get(subject) as History;
  const last = history.events.at(-1) as StoredEvent;
  const next = new Map(histories);
  next.set(
    subject,
    evolveHistory(history, { ...last, id: `${last.id} again`, position: 100_000, version: history.version + 1 }),
  );
  return next;
}

test("the table of the record is what the whole record gives", () => {
  const histories = practiceHistories();
  expect(recordTable(histories, defaultPolicy, NOW)).toEqual(whole(histories, NOW));
});

test("an event of a line folds that line, an event of a patient the patient's lines, and no other", () => {
  const histories = practiceHistories();
  const before = recordTable(histories, defaultPolicy, NOW);
  const line = [...histories.keys()].find((subject) => subject.startsWith("line:")) as Subject;
  const { patient } = lineView(histories.get(line) as History);
  for (const subject of [line, `patient:${patient}` as Subject]) {
    const after = writtenOn(histories, subject);
    const table = recordTable(after, defaultPolicy, SOON);
    expect(table).toEqual(whole(after, SOON));
    const anew = table.lines.filter((row) => !before.lines.includes(row));
    expect(anew.length).toBeGreaterThan(0);
    expect(anew.every((row) => `line:${row.key}` === line || row.patient === patient)).toBe(true);
    expect(anew.length).toBeLessThan(table.lines.length);
  }
});

test("the next day folds the lines that are still in, and leaves those that are out", () => {
  const histories = practiceHistories();
  const today = recordTable(histories, defaultPolicy, NOW);
  const next = recordTable(histories, defaultPolicy, TOMORROW);
  expect(next).toEqual(whole(histories, TOMORROW));
  for (const [at, row] of next.lines.entries()) {
    const out = row.end.kind !== "in place";
    expect(today.lines.includes(row), `${at} ${row.key}`).toBe(out);
  }
});

test("another policy folds every line", () => {
  const histories = practiceHistories();
  const before = recordTable(histories, defaultPolicy, NOW);
  const after = recordTable(histories, { ...defaultPolicy }, NOW);
  expect(after).toEqual(before);
  expect(after.lines.some((row) => before.lines.includes(row))).toBe(false);
});
