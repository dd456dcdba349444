import { describe, expect, test } from "vitest";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { eventFaults } from "../../src/contract/index.ts";
import { practiceRecord } from "../../src/practice/index.ts";
import {
  CHAIN_START,
  decideLine,
  evolveHistory,
  initialHistory,
  lineView,
  measured,
  outsideAtTip,
  outsideNow,
  possibleDuplicates,
  patientView,
  recall,
  shownUnder,
  wholePersons,
  type Entry,
  type EventType,
  type History,
  type RegisterEvent,
  type SealedEvent,
  type Subject,
} from "../../src/register/index.ts";
import { inventedEntry, type Said } from "../invented-entry.ts";

// Rules of the record: append-only, corrections struck, happened before written, two writers kept (common practice of
// registers, no single source; the tasks behind them are named beside each).

const author = { initials: "MK", role: "inserter", account: "" } as const;
let made = 0;
const event = (type: EventType | "ValueCorrected" | "EventVoided", data: object, more: Partial<Said> = {}) => {
  made += 1;
  return inventedEntry({ id: `e${made}`, subject: "line:a", type, at: "2026-03-02T10:00+00:00", data, ...more });
};

function given(...events: readonly SealedEvent[]): History {
  return events.reduce(
    (history, sealed, at) =>
      evolveHistory(history, {
        ...sealed,
        // a writer that says nothing else had seen all there was
        seen: sealed.seen === 0 ? at : sealed.seen,
        position: at + 1,
        version: at + 1,
        chainHash: CHAIN_START,
      }),
    initialHistory("line:a"),
  );
}

const values = (said: Record<string, unknown>): Entry =>
  Object.fromEntries(Object.entries(said).map(([key, value]) => [key, measured(value as never)])) as Entry;
const placed = () => event("LineInserted", values({ patient: "x", arm: "right", insideCm: 41, outsideCm: 2 }));
const visit = (outsideCm: number, at: string, more: Partial<RegisterEvent> = {}) =>
  event("CareGiven", values({ outsideCm }), { at: `${at}+00:00` as Instant, ...more });

describe("a line's history", () => {
  test("given a visit written late, then the lengths stand in the order they were found", () => {
    const line = lineView(given(placed(), visit(4, "2026-03-09T10:00"), visit(2.5, "2026-03-05T10:00")));
    expect(line.outside.map(({ value }) => value)).toEqual([2, 2.5, 4]);
    expect(outsideNow(line)?.value).toBe(4);
  });

  test("given a correction, then the new value counts and the old one is struck with who and why", () => {
    const first = placed();
    const line = lineView(
      given(
        first,
        event("ValueCorrected", { event: first.id, field: "outsideCm", value: measured(3), why: "misread tape" }),
      ),
    );
    expect(outsideNow(line)?.value).toBe(3);
    expect(line.placed?.struck).toEqual([
      { field: "outsideCm", was: measured(2), by: author, at: "2026-03-02T10:00+00:00", why: "misread tape" },
    ]);
  });

  test("given a voided visit, then it counts nowhere and is still there to read", () => {
    const wrong = visit(9, "2026-03-05T10:00");
    const line = lineView(given(placed(), wrong, event("EventVoided", { event: wrong.id, why: "other patient" })));
    expect(outsideNow(line)?.value).toBe(2);
    expect(line.happenings.find(({ event: { id } }) => id === wrong.id)?.voided?.why).toBe("other patient");
  });

  test("given values copied from a plan, then they do not count and are listed as missing", () => {
    const line = lineView(
      given(event("LineInserted", { outsideCm: { value: 2, from: "plan" }, insideCm: measured(41) })),
    );
    expect(outsideNow(line)).toBeUndefined();
    expect(line.missing.find(({ field }) => field === "outsideCm")?.why).toBe("from plan");
  });

  test("given an unknown end and a visit after it, then the line is in again", () => {
    const lost = event("EndUnknown", values({ lastSeenOn: "2026-03-05", lastOwner: "nurse" }), {
      at: "2026-03-10T10:00+00:00",
    });
    expect(lineView(given(placed(), lost)).end?.kind).toBe("unknown");
    expect(lineView(given(placed(), lost, visit(2, "2026-03-12T10:00"))).end).toBeUndefined();
  });

  test("the length a later one is held against is the one at the last tip reading or its correction", () => {
    const film = event("TipRead", values({ outsideCm: 0.5 }), { at: "2026-03-02T12:00+00:00" });
    const moved = event("TipCorrected", values({ outsideCm: 3 }), { at: "2026-03-02T12:10+00:00" });
    expect(outsideAtTip(lineView(given(placed(), film)))?.value).toBe(0.5);
    expect(outsideAtTip(lineView(given(placed(), film, moved)))?.value).toBe(3);
  });
});

describe("two writers who did not know of each other", () => {
  const out = (lengthOutCm: number, device: string, seen: number) =>
    event("LineRemoved", values({ lengthOutCm, planned: true }), {
      device,
      seen,
      at: "2026-03-20T10:00+00:00",
    });

  test("both are kept and the fields that differ are listed", () => {
    const line = lineView(given(placed(), out(41, "one", 1), out(36, "two", 1)));
    expect(line.disputes.map(({ fields }) => fields)).toEqual([["lengthOutCm"]]);
  });

  test("a writer who had seen the first is no dispute, nor is the same value twice", () => {
    expect(lineView(given(placed(), out(41, "one", 1), out(36, "two", 2))).disputes).toEqual([]);
    expect(lineView(given(placed(), out(41, "one", 1), out(41, "two", 1))).disputes).toEqual([]);
  });

  test("a correction to the same value settles it", () => {
    const [a, b] = [out(41, "one", 1), out(36, "two", 1)];
    const settle = event("ValueCorrected", {
      event: b.id,
      field: "lengthOutCm",
      value: measured(41),
      why: "re-measured",
    });
    expect(lineView(given(placed(), a, b, settle)).disputes).toEqual([]);
  });
});

describe("what may be written now", () => {
  const line = lineView(given(placed()));
  const known = { sidesAgree: true, stop: undefined, overrideRoles: ["inserter"] };
  const author = { role: "inserter" } as const;
  const when = (type: EventType, said: Record<string, unknown>, at = "2026-03-03T10:00+00:00") =>
    decideLine(
      line,
      type,
      values(said),
      { happenedAt: at as Instant, writtenAt: "2026-03-03T10:00+00:00" as Instant, author },
      known,
    );

  test.each([
    ["OwnerNamed", { owner: "A", place: "Home" }, "owner-place-and-date-needed"],
    ["OwnerNamed", { owner: " ", place: "Home", nextOn: "2026-03-09" }, "owner-place-and-date-needed"],
    ["OwnerNamed", { owner: "A", place: "Home", nextOn: "2026-03-01" }, "next-date-before-today"],
    ["LineReleased", { uses: ["blood"] }, "release-needs-a-tip-reading"],
    ["SideSettled", { arm: "left", firstName: "Ann", secondName: "ann " }, "two-different-names-needed"],
    ["LineInserted", {}, "line-already-placed"],
  ] as const)("%s %j is refused: %s", (type, said, code) => {
    expect(when(type, said)).toMatchObject({ kind: "refused", code });
  });

  test("nothing happens tomorrow, nor before the line was there", () => {
    expect(when("LineUsed", {}, "2026-03-04T10:00+00:00")).toMatchObject({ code: "in-the-future" });
    expect(when("LineUsed", {}, "2026-03-01T10:00+00:00")).toMatchObject({ code: "before-the-line-was-placed" });
    expect(when("LineUsed", {}, "2026-03-03T10:04+00:00")).toEqual({ kind: "accepted" });
  });

  test("a line that is out takes no visit after, but papers and conclusions", () => {
    const gone = lineView(given(placed(), event("LineRemoved", values({}), { at: "2026-03-03T09:00+00:00" })));
    const stamp = {
      happenedAt: "2026-03-03T10:00+00:00" as Instant,
      writtenAt: "2026-03-03T10:00+00:00" as Instant,
      author,
    };
    expect(decideLine(gone, "CareGiven", {}, stamp, known)).toMatchObject({ code: "line-already-out" });
    expect(decideLine(gone, "PaperIssued", {}, stamp, known)).toEqual({ kind: "accepted" });
  });
});

describe("the practice service", () => {
  const events = practiceRecord("2026-03-04" as CivilDate, "+00:00");
  const histories = new Map<Subject, History>();
  for (const [at, sealed] of events.entries()) {
    const before = histories.get(sealed.subject) ?? initialHistory(sealed.subject);
    const stored = { ...sealed, position: at + 1, version: before.version + 1, chainHash: CHAIN_START };
    histories.set(sealed.subject, evolveHistory(before, stored));
  }
  const of = (kind: string) => [...histories.values()].filter(({ subject }) => subject.startsWith(`${kind}:`));

  test("every event of it could have come from outside", () => {
    expect(events.flatMap((one) => eventFaults(one).map((fault) => ({ id: one.id, ...fault })))).toEqual([]);
  });

  test("two people who may be one are asked about, and a merge can be taken apart", () => {
    const patients = of("patient").map(patientView);
    expect(possibleDuplicates(patients).map(({ a, b }) => [a.number, b.number])).toEqual([["P-20418", "P-20481"]]);
    const [a, b] = patients.filter(({ name }) => name.startsWith("ROWAN"));
    if (!a || !b) throw new Error("two Rowans");
    const joined = { ...a, sameAs: [b.subject] };
    const known = (one: typeof a) => new Map([one, b].map((patient) => [patient.subject, patient]));
    expect(shownUnder(b.subject, known(joined))).toBe(a.subject);
    expect(shownUnder(b.subject, known(a))).toBe(b.subject);
  });

  test("an arm barred on one record of a joined person is barred on the other, until they are taken apart", () => {
    const patients = of("patient").map(patientView);
    const [a, b, ...rest] = patients.filter(({ name }) => name.startsWith("ROWAN"));
    if (!a || !b) throw new Error("two Rowans");
    expect(rest).toEqual([]);
    const bar = { arm: "left" as const, why: "fistula planned", words: "" };
    const joined = [
      { ...a, sameAs: [b.subject] },
      { ...b, barred: [bar] },
    ];
    const whole = wholePersons(joined);
    expect(whole.get(a.subject)).toMatchObject({ barred: [bar], otherRecords: [{ number: b.number }] });
    expect(whole.get(b.subject)).toMatchObject({ barred: [bar], otherRecords: [{ number: a.number }] });
    expect(wholePersons([a, { ...b, barred: [bar] }]).size).toBe(0);
  });

  // Stores and recalls, job of a recall: everyone reached, the unknown ends and the missing lots included.
  test("a recall reaches those in, those nobody has seen, and those whose lot nobody wrote", () => {
    const reached = recall("lx-44l7", of("line").map(lineView));
    const names = (lines: readonly { readonly subject: string }[]) => lines.map(({ subject }) => subject.slice(14));
    expect(names(reached.unknownEnd)).toEqual(["hasel"]);
    expect(names(reached.out)).toEqual(["weide"]);
    expect(names(reached.lotMissing)).toEqual(["erle"]);
    expect(names(reached.stillIn)).toContain("birk");
    expect(names(reached.stillIn)).not.toContain("linden");
  });
});
