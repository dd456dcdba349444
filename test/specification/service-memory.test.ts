import { describe, expect, test } from "vitest";
import {
  monthPack,
  proposedBases,
  signalEntry,
  type AuditTable,
  type LineRow,
  type Measure,
  type MonthPack,
} from "../../src/audit/index.ts";
import { eventFaults } from "../../src/contract/index.ts";
import { eventsToSignal } from "../../src/core/control-chart/index.ts";
import {
  decideMemory,
  evolveHistory,
  initialHistory,
  serviceMemory,
  serviceSubject,
  told,
  type History,
} from "../../src/register/index.ts";
import { dated, happened, on, plainRow, removed } from "../../reference/by-hand/count/plain-row.ts";
import { inventedEntry, keptEntry, LEAD } from "../invented-entry.ts";
import { houseMeasures, limits, rules } from "../../reference/house-rules.ts";

// What a service remembers of its own numbers, told as months of one invented service. Freezing the base and never
// computing it anew in silence: Woodall 2006, J Qual Technol 38:89 (from memory); the rest common practice, no source.

const measures = houseMeasures;
const watched = measures.filter(({ id }) => id === "occlusion") as readonly Measure[];

/** Ten lines stand all the time, each for a month; a blocked line in two of them, and six in April 2026. */
function yearRows(): readonly LineRow[] {
  const rows: LineRow[] = [];
  for (let month = 0; month < 18; month += 1) {
    const [year, number] = [2025 + Math.floor(month / 12), (month % 12) + 1];
    const first = `${year}-${String(number).padStart(2, "0")}`;
    const next = month === 11 ? "2026-01" : `${year}-${String((number % 12) + 1).padStart(2, "0")}`;
    const blocked = first === "2026-04" ? 6 : 2;
    for (let line = 0; line < 10; line += 1)
      rows.push(
        plainRow(`${first}/${line}`, `${first}-01`, removed(`${next}-01`), {
          events: line < blocked ? [happened("occlusion", `${first}-${10 + line}`)] : [],
        }),
      );
  }
  return rows;
}
const tableOn = (asOf: string, rows = yearRows()): AuditTable => ({
  asOf: dated(asOf),
  lines: rows.filter(({ placed }) => placed?.precision === "date" && placed.date < asOf),
  referrals: [],
});

const subject = serviceSubject(false);
function write(history: History, type: string, data: object, id: string): History {
  const at = `2026-05-04T09:${String(history.version).padStart(2, "0")}+00:00`;
  const event = inventedEntry({ id, subject, type, at, author: LEAD, seen: history.version, data });
  expect(eventFaults(event)).toEqual([]);
  expect(decideMemory(serviceMemory(history), type, data)).toBeUndefined();
  return evolveHistory(history, keptEntry(event, history.version + 1));
}
const packOn = (month: string, table: AuditTable, history: History): MonthPack =>
  monthPack(table, measures, on(month), rules, { memory: serviceMemory(history) });
const chartOf = ({ monitor }: MonthPack) => {
  const chart = monitor?.charts.find(({ measure }) => measure === "occlusion");
  if (!chart) throw new Error("no chart");
  return chart;
};

function withBase(): History {
  const span = { from: on("2025-01-01"), to: on("2026-01-01"), until: on("2026-05-01") };
  const [proposed] = proposedBases(tableOn("2026-05-04"), watched, span, rules, {}, "1");
  if (!proposed?.entry) throw new Error(`no base: ${proposed?.noAlarm}`);
  const said = { ...proposed.entry, by: told("L. Orr"), why: told("First full year") };
  return write(initialHistory(subject), "WatchBaseSet", said, "b1");
}
/** The signal of April as it stood on 4 May. */
function withSignal(): { readonly history: History; readonly may: MonthPack } {
  const history = withBase();
  const may = packOn("2026-04-01", tableOn("2026-05-04"), history);
  const [base] = serviceMemory(history).bases;
  const [signal] = chartOf(may).watch?.signals ?? [];
  if (!base || !signal) throw new Error("no signal");
  return { history: write(history, "SignalSeen", signalEntry(chartOf(may), signal, base, "1"), "s1"), may };
}

describe("given a base that a person set", () => {
  test("when a year has passed over it, then its numbers and its decision are the ones that were set", () => {
    const history = withBase();
    const [base] = serviceMemory(history).bases;
    // two in each of twelve months; ten lines from noon of the first day to the year's end, 364.5 days
    expect(base).toMatchObject({ events: 24, measure: "occlusion", by: "L. Orr" });
    expect(base?.lineDays).toBeCloseTo(3645, 6);
    for (const month of ["2026-02-01", "2026-05-01"]) {
      const { plan, watch } = chartOf(packOn(month, tableOn("2026-06-04"), history));
      expect(plan.base.events).toBe(24);
      expect(watch?.decision).toBe(base?.decision);
      expect(watch?.points[0]?.on).toBe("2026-01-01");
    }
    expect(chartOf(packOn("2026-05-01", tableOn("2026-06-04"), initialHistory(subject))).plan.base.events).not.toBe(24);
  });

  test("when volume changes, then the frozen decision says what it costs now", () => {
    const history = withBase();
    const { plan } = chartOf(packOn("2026-05-01", tableOn("2026-06-04"), history));
    const [base] = serviceMemory(history).bases;
    const decision = base?.decision as number;
    expect(plan.alarm?.yearsBetweenFalseSignals).toBeCloseTo(
      eventsToSignal(limits.watchRatio, decision, 1) / plan.expectedPerYear,
      9,
    );
  });

  test("when a target was agreed, then it is the base, and is told as a target", () => {
    const span = { from: on("2025-01-01"), to: on("2026-01-01"), until: on("2026-05-01") };
    const [proposed] = proposedBases(tableOn("2026-05-04"), watched, span, rules, { occlusion: 5 }, "1");
    const said = { ...proposed?.entry, by: told("L. Orr"), why: told("Rate agreed on by the region") };
    const { bases } = serviceMemory(write(initialHistory(subject), "WatchBaseSet", said, "b1"));
    expect(bases[0]).toMatchObject({ targetPerThousand: 5, events: limits.baseEvents });
    expect(bases[0]?.lineDays).toBeCloseTo((1000 * limits.baseEvents) / 5, 6);
  });

  test("when the span has too few events, then no base is offered without a target", () => {
    const span = { from: on("2025-11-01"), to: on("2026-01-01"), until: on("2026-05-01") };
    const [proposed] = proposedBases(tableOn("2026-05-04"), watched, span, rules, {}, "1");
    expect(proposed).toMatchObject({ entry: undefined, noAlarm: "base too small and no target agreed" });
  });
});

describe("given a signal that was kept", () => {
  test("when next month's pack is made, then it stands on the same day with the same numbers", () => {
    const { history, may } = withSignal();
    const [seen] = chartOf(may).watch?.signals ?? [];
    expect(seen?.on.slice(0, 7)).toBe("2026-04");
    const june = packOn("2026-05-01", tableOn("2026-06-04"), history);
    expect(june.memory?.signals).toHaveLength(1);
    expect(june.memory?.signals[0]).toMatchObject({ restated: undefined, earlierBase: false });
    expect(june.memory?.signals[0]?.kept).toMatchObject({ on: seen?.on, events: seen?.events });
  });

  test("when an event is entered late, then both numbers are shown", () => {
    const { history } = withSignal();
    const [was] = serviceMemory(history).signals;
    const late = yearRows().map((row) =>
      row.key === "2026-04/7" ? { ...row, events: [happened("occlusion", was?.since as string)] } : row,
    );
    const june = packOn("2026-05-01", tableOn("2026-06-04", late), history);
    const remembered = june.memory?.signals.find(({ kept }) => kept);
    expect(remembered?.kept?.events).toBe(was?.events);
    expect(remembered?.restated?.events).toBe((was?.events ?? 0) + 1);
    expect(remembered?.restated?.on).toBeDefined();
  });

  test("when the events turn out not to have been, then it is told that no signal is there now", () => {
    const { history } = withSignal();
    const struck = yearRows().map((row) => (row.key.startsWith("2026-04") ? { ...row, events: [] } : row));
    const june = packOn("2026-05-01", tableOn("2026-06-04", struck), history);
    const [remembered] = june.memory?.signals ?? [];
    expect(remembered?.present).toBeUndefined();
    expect(remembered?.restated).toMatchObject({ on: undefined });
  });

  test("when another base is set after it, then it is shown as it was and not counted again", () => {
    const { history } = withSignal();
    const [base] = serviceMemory(history).bases;
    if (!base) throw new Error("no base");
    const next = {
      measure: told("occlusion"),
      baseFrom: told("2025-01-01"),
      baseTo: told("2026-01-01"),
      baseEvents: told(48),
      baseLineDays: told(base.lineDays),
      decision: told(base.decision),
      ruleVersion: told("1"),
      by: told("L. Orr"),
      why: told("The old year had been undercounted"),
    };
    const june = packOn("2026-05-01", tableOn("2026-06-04"), write(history, "WatchBaseSet", next, "b2"));
    const kept = june.memory?.signals.filter((one) => one.kept);
    expect(kept).toMatchObject([{ earlierBase: true, restated: undefined }]);
    expect(chartOf(june).plan.base.events).toBe(48);
  });
});

describe("given an action of April in the record", () => {
  const agreed = {
    month: told("2026-04"),
    action: told("Flush after every blood sample."),
    ownerRole: told("lead"),
    dueOn: told("2026-05-20"),
    measure: told("occlusion"),
  };
  const history = write(withBase(), "ActionAgreed", agreed, "a1");

  test("when May's pack is made, then it comes first with what it moved, and what came of it", () => {
    const done = write(history, "ActionOutcomeWritten", { month: told("2026-04"), outcome: told("done") }, "o1");
    const { action } = packOn("2026-05-01", tableOn("2026-06-04"), done);
    expect(action).toMatchObject({ what: "Flush after every blood sample.", owner: "lead", done: true });
    expect(action?.moved?.now.measure).toBe("occlusion");
    expect(packOn("2026-05-01", tableOn("2026-06-04"), history).action?.done).toBe(false);
    expect(packOn("2026-06-01", tableOn("2026-06-20"), history).action).toBeUndefined();
  });

  test("when an action is typed with the call, then that one is printed", () => {
    const action = { what: "Other", owner: "x", dueOn: on("2026-05-20"), measure: "thrombosis", done: false };
    const memory = serviceMemory(history);
    expect(monthPack(tableOn("2026-06-04"), measures, on("2026-05-01"), rules, { action, memory }).action?.what).toBe(
      "Other",
    );
  });
});

describe("given changes of practice", () => {
  test("when the pack is made, then those of its year have numbers in the order of their days", () => {
    const change = (day: string, words: string) => ({
      changedOn: told(day),
      kindOfChange: told("dressing"),
      words: told(words),
    });
    const history = [
      ["2026-03-01", "third"],
      ["2025-07-01", "second"],
      ["2024-01-01", "long ago"],
    ].reduce<History>(
      (before, [day, words], at) => write(before, "PracticeChanged", change(day as string, words as string), `c${at}`),
      withBase(),
    );
    const { memory } = packOn("2026-05-01", tableOn("2026-06-04"), history);
    expect(memory?.changes.map(({ number, words }) => [number, words])).toEqual([
      [1, "second"],
      [2, "third"],
    ]);
  });
});
