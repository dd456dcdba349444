import { describe, expect, test } from "vitest";
import type { CivilDate } from "../../core/calendar/index.ts";
import { evolveHistory, initialHistory, told, type Entry, type History } from "../index.ts";
import { actionBefore, baseInForce, decideMemory, serviceMemory, serviceSubject } from "./index.ts";
import { inventedEntry, keptEntry, LEAD } from "../../../test/invented-entry.ts";

// Common practice, no source: what a service must find again of its own signals, bases and actions.
const subject = serviceSubject(false);
let hour = 0;
function after(history: History, type: string, data: Entry | object, id = `e${history.version + 1}`): History {
  hour += 1;
  const at = `2026-05-04T${String(hour % 24).padStart(2, "0")}:00+00:00`;
  const event = inventedEntry({ id, subject, type, at, author: LEAD, seen: history.version, data });
  return evolveHistory(history, keptEntry(event, history.version + 1));
}
const base: Entry = {
  measure: told("thrombosis"),
  baseFrom: told("2025-01-01"),
  baseTo: told("2026-01-01"),
  baseEvents: told(24),
  baseLineDays: told(15_000),
  decision: told(2.7),
  ruleVersion: told("1"),
  by: told("L. Orr"),
  why: told("First full year"),
};
const signal: Entry = {
  measure: told("thrombosis"),
  signalOn: told("2026-05-03"),
  base: told("b1"),
  since: told("2026-03-20"),
  events: told(7),
  lineDays: told(1890.25),
  expected: told(3.02),
  sum: told(2.9),
  baseEvents: told(24),
  baseLineDays: told(15_000),
  decision: told(2.7),
  ruleVersion: told("1"),
};
const withBase = () => {
  hour = 0;
  return after(initialHistory(subject), "WatchBaseSet", base, "b1");
};

describe("what a service keeps of its own numbers", () => {
  test("one signal written by two devices is kept once, as the first of them wrote it", () => {
    const twice = after(after(withBase(), "SignalSeen", signal), "SignalSeen", { ...signal, events: told(8) });
    const { signals } = serviceMemory(twice);
    expect(signals.map(({ on, events }) => [on, events])).toEqual([["2026-05-03", 7]]);
    expect(decideMemory(serviceMemory(twice), "SignalSeen", signal)).toBe("signal-already-kept");
  });

  test("another day, another base and another measure are other signals", () => {
    const again = after(withBase(), "WatchBaseSet", { ...base, baseEvents: told(20) }, "b2");
    const kept = [signal, { ...signal, signalOn: told("2026-06-01") }, { ...signal, base: told("b2") }].reduce<History>(
      (history, one) => after(history, "SignalSeen", one),
      again,
    );
    expect(serviceMemory(kept).signals).toHaveLength(3);
    expect(decideMemory(serviceMemory(kept), "SignalSeen", { ...signal, measure: told("occlusion") })).toBe(
      "base-not-kept",
    );
  });

  test("a look finds its signal, and a look at nothing is refused", () => {
    const look: Entry = { measure: told("thrombosis"), signalOn: told("2026-05-03"), base: told("b1") };
    const found = { ...look, by: told("A. Wren"), found: told("practice"), action: told("Smaller lines") };
    expect(decideMemory(serviceMemory(withBase()), "SignalLookedAt", found)).toBe("signal-not-kept");
    const history = after(after(withBase(), "SignalSeen", signal), "SignalLookedAt", found);
    expect(serviceMemory(history).signals[0]?.looks).toMatchObject([
      { by: "A. Wren", found: "practice", action: "Smaller lines" },
    ]);
  });

  // each of them ended the pack and the page on time with an error, for as long as it was the last base
  test.each<readonly [string, Entry]>([
    ["more events than line-days", { baseEvents: told(100_000), baseLineDays: told(0.01) }],
    ["a decision whose run length is not known", { decision: told(12.5) }],
  ])("a base with %s is not taken, and one that is in the record already is passed over", (_what, odd) => {
    expect(decideMemory(serviceMemory(withBase()), "WatchBaseSet", { ...base, ...odd })).toBe("base-incomplete");
    const { bases } = serviceMemory(after(withBase(), "WatchBaseSet", { ...base, ...odd }));
    expect(bases.map(({ decision }) => decision)).toEqual([2.7]);
  });

  test("a base stands until another is set with a reason; the old one is kept", () => {
    const next: Entry = { ...base, baseEvents: told(30), why: told("Confirmed change of connector") };
    expect(decideMemory(serviceMemory(withBase()), "WatchBaseSet", { ...next, why: told("  ") })).toBe(
      "reason-missing",
    );
    expect(decideMemory(serviceMemory(withBase()), "WatchBaseSet", { ...next, baseTo: told("2024-01-01") })).toBe(
      "base-incomplete",
    );
    const memory = serviceMemory(after(withBase(), "WatchBaseSet", next, "b2"));
    expect(baseInForce(memory, "thrombosis")).toMatchObject({ id: "b2", events: 30 });
    expect(memory.bases.map(({ id }) => id)).toEqual(["b1", "b2"]);
    expect(baseInForce(memory, "occlusion")).toBeUndefined();
  });

  test("a voided base and a voided signal count no more", () => {
    const history = after(after(withBase(), "SignalSeen", signal, "s1"), "EventVoided", {
      event: "s1",
      why: "test entry",
    });
    expect(serviceMemory(history).signals).toEqual([]);
    expect(serviceMemory(after(history, "EventVoided", { event: "b1", why: "wrong" })).bases).toEqual([]);
  });

  test("an action of April opens May's pack, with what came of it", () => {
    const agreed: Entry = {
      month: told("2026-04"),
      action: told("Smaller lines first"),
      ownerRole: told("lead"),
      dueOn: told("2026-05-20"),
      measure: told("thrombosis"),
    };
    const outcome: Entry = { month: told("2026-04"), outcome: told("done"), words: told("All wards") };
    expect(decideMemory(serviceMemory(withBase()), "ActionOutcomeWritten", outcome)).toBe("action-not-agreed");
    expect(decideMemory(serviceMemory(withBase()), "ActionAgreed", { ...agreed, month: told("May") })).toBe(
      "month-unreadable",
    );
    const memory = serviceMemory(after(after(withBase(), "ActionAgreed", agreed), "ActionOutcomeWritten", outcome));
    expect(actionBefore(memory, "2026-05-01" as CivilDate)).toMatchObject({
      action: "Smaller lines first",
      outcome: { outcome: "done", words: "All wards" },
    });
    expect(actionBefore(memory, "2026-06-01" as CivilDate)).toBeUndefined();
    const january = serviceMemory(after(withBase(), "ActionAgreed", { ...agreed, month: told("2025-12") }));
    expect(actionBefore(january, "2026-01-01" as CivilDate)?.month).toBe("2025-12-01");
  });

  test("a change of practice needs its day and its sentence", () => {
    const change: Entry = { changedOn: told("2026-03-01"), kindOfChange: told("connector"), words: told("New valve") };
    const memory = serviceMemory(withBase());
    expect(decideMemory(memory, "PracticeChanged", { changedOn: told("2026-03-01") })).toBe("words-missing");
    expect(decideMemory(memory, "PracticeChanged", change)).toBeUndefined();
    expect(serviceMemory(after(withBase(), "PracticeChanged", change)).changes).toMatchObject([
      { on: "2026-03-01", kind: "connector", words: "New valve" },
    ]);
  });

  test("a base that came without a reason holds nothing", () => {
    const { why: _why, ...without } = base;
    expect(serviceMemory(after(initialHistory(subject), "WatchBaseSet", without, "b1")).bases).toEqual([]);
  });

  test("a value that waits from a plan is no value here", () => {
    const planned = { ...base, baseEvents: { value: 24, from: "plan" } };
    expect(serviceMemory(after(initialHistory(subject), "WatchBaseSet", planned, "b1")).bases).toEqual([]);
  });
});
