import { describe, expect, test } from "vitest";
import { parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import {
  careDue,
  coveredDays,
  daysSaved,
  homeRound,
  idleLines,
  judgeHandover,
  judgeNeed,
  weekendList,
  type DueItem,
  type HomeVisit,
  type LineCare,
  type LineNeed,
} from "../../src/core/care/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre } from "../../src/core/quantity/index.ts";
import { daysSavedSentence, dueSentence, sayFinding } from "../../src/language/index.ts";
import { careLimitsFrom, defaultPolicyTable, idleLimitsFrom } from "../../src/policy/index.ts";

/** Looking after a line as a ward would say it: given what was done, when it is asked, then what is due and why. */
const at = (text: string) => parseInstant(text) as Instant;
const on = (text: string) => parseCivilDate(text) as CivilDate;
const notAsked = missing("not asked");
const limits = careLimitsFrom(defaultPolicyTable);

const line = (more: Partial<LineCare> = {}): LineCare => ({
  id: "line",
  setting: "ward",
  person: "Nurse A",
  place: "ward 3",
  nextOn: notAsked,
  dressing: { type: "transparent", doneAt: at("2025-08-05T10:00+02:00"), state: "sound" },
  connector: { changedAt: at("2025-08-05T10:00+02:00"), reason: "none" },
  flushedAt: at("2025-08-05T10:00+02:00"),
  sets: [],
  reviewedAt: at("2025-08-05T10:00+02:00"),
  ...more,
});
const due = (one: LineCare, now: string, name: DueItem["item"]): DueItem =>
  careDue(one, at(now), limits).find(({ item }) => item === name) as DueItem;
const said = (one: LineCare, now: string, name: DueItem["item"]) => dueSentence(due(one, now, name));

describe("due dates", () => {
  test("given a transparent dressing of Tue 5 Aug, it is due on Tue 12 Aug; a gauze on Thu 7 Aug", () => {
    expect(said(line(), "2025-08-06T08:00+02:00", "dressing")).toBe("Dressing: due Tue 12 Aug 2025.");
    const gauze = line({ dressing: { type: "gauze", doneAt: at("2025-08-05T10:00+02:00"), state: "sound" } });
    expect(said(gauze, "2025-08-06T08:00+02:00", "dressing")).toBe("Dressing: due Thu 7 Aug 2025.");
  });

  test.each(["wet", "loose", "soiled", "lifting"] as const)(
    "given it is %s, it is due at once, and says why",
    (state) => {
      const spoiled = line({
        dressing: {
          type: "transparent",
          doneAt: at("2025-08-05T10:00+02:00"),
          state,
          stateSeenAt: at("2025-08-08T09:00+02:00"),
        },
      });
      expect(said(spoiled, "2025-08-08T10:00+02:00", "dressing")).toBe(`Dressing: due now, it is ${state}.`);
      expect(said(spoiled, "2025-08-09T10:00+02:00", "dressing")).toBe(
        `Dressing: overdue by 1 day, it is ${state}. It was due Fri 8 Aug 2025.`,
      );
    },
  );

  test("given care done early, the clock starts again on the day done, not on the day due", () => {
    const early = line({ dressing: { type: "transparent", doneAt: at("2025-08-08T23:50+02:00"), state: "sound" } });
    expect(due(early, "2025-08-09T00:10+02:00", "dressing").dueOn).toBe("2025-08-15");
  });

  test("given a dressing in place through a change of clocks, it is due on the same weekday", () => {
    const autumn = line({ dressing: { type: "transparent", doneAt: at("2025-10-21T23:30+02:00"), state: "sound" } });
    expect(due(autumn, "2025-10-28T00:10+01:00", "dressing")).toMatchObject({ dueOn: "2025-10-28", state: "due now" });
  });

  test("given nobody wrote the last one down, it is asked and never taken as done", () => {
    const blank = line({ dressing: notAsked, connector: notAsked, flushedAt: notAsked, reviewedAt: notAsked });
    const items = careDue(blank, at("2025-08-06T08:00+02:00"), limits);
    expect(items.map(({ state }) => state)).toEqual(["not known", "not known", "not known", "not known"]);
    expect(dueSentence(items[0] as DueItem)).toBe("Dressing: when was the last? Nobody wrote it down.");
  });

  test("given a clean connector of 60 hours, it is left alone; with blood it is due now; before a culture too", () => {
    const now = "2025-08-07T22:00+02:00";
    expect(said(line(), now, "connector")).toBe(
      "Connector: not before Sat 9 Aug 2025, 10:00. Due Tue 12 Aug 2025, 10:00.",
    );
    for (const [reason, words] of [
      ["blood", "blood in it"],
      ["debris", "debris in it"],
      ["before a culture", "before a culture"],
      ["was taken off", "it was taken off"],
    ] as const) {
      const called = line({ connector: { changedAt: at("2025-08-05T10:00+02:00"), reason } });
      expect(said(called, now, "connector")).toBe(`Connector: due now, ${words}.`);
    }
  });

  test("given sets of each kind, each has its own hours", () => {
    const now = "2025-08-08T12:00+02:00";
    const set = (kind: LineCare["sets"][number]["kind"], startedAt: string) =>
      said(line({ sets: [{ kind, startedAt: at(startedAt) }] }), now, "administration set");
    expect(set("lipid", "2025-08-07T23:00+02:00")).toBe("Lipid set: overdue by 1 h. It was due Fri 8 Aug 2025, 11:00.");
    expect(set("blood", "2025-08-08T08:00+02:00")).toBe("Blood set: due now.");
    expect(set("continuous", "2025-08-04T18:00+02:00")).toContain("not before Fri 8 Aug 2025, 18:00");
    expect(set("continuous", "2025-07-31T12:00+02:00")).toContain("overdue by 24 h");
    expect(set("intermittent", "2025-08-07T13:00+02:00")).toBe("Intermittent set: due Fri 8 Aug 2025, 13:00.");
  });

  test("given a ward, the need is asked daily; at home at the next visit, and weekly at the latest", () => {
    expect(due(line(), "2025-08-06T08:00+02:00", "need review").dueOn).toBe("2025-08-06");
    const home = line({ setting: "home", nextOn: on("2025-08-09") });
    expect(due(home, "2025-08-06T08:00+02:00", "need review")).toMatchObject({
      dueOn: "2025-08-09",
      why: "next visit",
    });
    expect(due({ ...home, nextOn: on("2025-08-30") }, "2025-08-06T08:00+02:00", "need review").dueOn).toBe(
      "2025-08-12",
    );
    expect(due({ ...home, nextOn: notAsked }, "2025-08-06T08:00+02:00", "need review").dueOn).toBe("2025-08-12");
  });

  test("given an idle line, it is flushed weekly", () => {
    expect(due(line(), "2025-08-12T08:00+02:00", "flush")).toMatchObject({ dueOn: "2025-08-12", state: "due now" });
  });
});

describe("a state nobody asked about", () => {
  test("given it, the date stands with its question, and a sound one has none", () => {
    const now = "2025-08-06T08:00+02:00";
    const unseen = line({
      dressing: { type: "transparent", doneAt: at("2025-08-05T10:00+02:00"), state: notAsked },
      connector: { changedAt: at("2025-08-01T10:00+02:00"), reason: notAsked },
    });
    expect(said(unseen, now, "dressing")).toBe("Dressing: due Tue 12 Aug 2025. Is it dry and sealed?");
    expect(said(unseen, now, "connector")).toBe(
      "Connector: due Fri 8 Aug 2025, 10:00. Is there blood or debris in it?",
    );
  });
});

describe("handing over", () => {
  test("given no person, place or date, a discharge is stopped for each", () => {
    const findings = judgeHandover("discharge", { person: notAsked, place: "", nextOn: notAsked }, on("2025-08-08"));
    expect(findings.map(({ level }) => level)).toEqual(["stop", "stop", "stop"]);
    expect(findings.map(sayFinding)).toEqual([
      "No discharge yet: nobody is named for the next care.",
      "No discharge yet: where will the next care be?",
      "No discharge yet: when is the next care?",
    ]);
  });

  test("given a next date that has passed, a transfer is stopped; with all three it is not", () => {
    const owner = { person: "Nurse A", place: "home", nextOn: on("2025-08-07") };
    expect(judgeHandover("transfer", owner, on("2025-08-08"))[0]?.level).toBe("stop");
    expect(judgeHandover("transfer", { ...owner, nextOn: on("2025-08-08") }, on("2025-08-08"))[0]?.verdict).toBe("met");
  });
});

describe("the list before days off", () => {
  const friday = at("2025-08-08T12:00+02:00");
  const dressed = (id: string, doneAt: string, more: Partial<LineCare> = {}) =>
    line({
      id,
      flushedAt: friday,
      reviewedAt: at("2025-08-08T09:00+02:00"),
      setting: "home",
      connector: { changedAt: friday, reason: "none" },
      dressing: { type: "transparent", doneAt: at(doneAt), state: "sound" },
      ...more,
    });

  test("given a Friday, it covers Saturday to Monday; holidays beside them too; a Wednesday covers none", () => {
    const days = (today: string, holidays: string[] = []) =>
      coveredDays(on(today), limits.coveredWeekdays, holidays.map(on));
    expect(days("2025-08-08")).toEqual(["2025-08-09", "2025-08-10", "2025-08-11"]);
    expect(days("2025-08-06")).toEqual([]);
    expect(days("2026-04-02", ["2026-04-03"])).toEqual(["2026-04-03", "2026-04-04", "2026-04-05", "2026-04-06"]);
    expect(days("2026-04-03", ["2026-04-07"])).toHaveLength(4);
  });

  test("given lines due on those days, those without a named person come first", () => {
    const list = weekendList(
      [
        dressed("named, Saturday", "2025-08-02T10:00+02:00"),
        dressed("nobody, Sunday", "2025-08-03T10:00+02:00", { person: notAsked }),
        dressed("named, Tuesday", "2025-08-05T10:00+02:00"),
        dressed("overdue", "2025-07-30T10:00+02:00"),
      ],
      friday,
      [],
      limits,
    );
    expect(list.map(({ due: one, on: day, carriedOver }) => [one.lineId, day, carriedOver])).toEqual([
      ["nobody, Sunday", "2025-08-10", false],
      ["overdue", "2025-08-06", true],
      ["named, Saturday", "2025-08-09", false],
    ]);
    expect(list[0]?.lacks).toEqual(["person"]);
  });

  test("given a care nobody wrote down, the list lacks its date", () => {
    const [first] = weekendList(
      [dressed("blank", "2025-08-03T10:00+02:00", { flushedAt: notAsked })],
      friday,
      [],
      limits,
    );
    expect(first).toMatchObject({ lacks: ["date"], carriedOver: true, due: { item: "flush" } });
  });

  test("given a home round, it follows the order a person gave, then the place, with the baselines", () => {
    const visit = (id: string, order: number | undefined, place: string): HomeVisit => ({
      line: dressed(id, "2025-08-01T10:00+02:00", { place }),
      order: order ?? notAsked,
      outsideCm: centimetre(2),
      armCircumferenceCm: centimetre(28),
      armMeasuredAtCm: centimetre(10),
    });
    const stops = homeRound(
      [
        visit("c", undefined, "Willow Street"),
        visit("b", 2, "Elm Street"),
        visit("a", 1, "Oak Street"),
        visit("d", undefined, "Ash Street"),
      ],
      friday,
      limits,
    );
    expect(stops.map(({ visit: one }) => one.line.id)).toEqual(["a", "b", "d", "c"]);
    expect(stops[0]).toMatchObject({ dressing: "transparent", visit: { outsideCm: 2 } });
    expect(stops[0]?.due.map(({ item }) => item)).toEqual(["dressing"]);
  });
});

describe("is it still needed", () => {
  const now = at("2025-08-08T12:00+02:00");
  const needed: LineNeed = {
    setting: "ward",
    placedOn: on("2025-08-01"),
    lastUsedAt: at("2025-08-08T08:00+02:00"),
    plannedEndOn: on("2025-08-20"),
    changedToTablets: false,
    onlyBloodSampling: false,
    secondDeviceDoesTheJob: false,
    somebodyFlushes: true,
    lastLongDwellReviewOn: notAsked,
  };
  const codes = (more: Partial<LineNeed>) =>
    judgeNeed({ ...needed, ...more }, now, idleLimitsFrom(defaultPolicyTable)).map(({ code }) => code);

  test("given everything in use, nothing is said", () => expect(codes({})).toEqual([]));

  test.each([
    ["need-no-use", { lastUsedAt: at("2025-08-06T12:00+02:00") }],
    ["need-no-use", { setting: "home" as const, lastUsedAt: at("2025-07-25T12:00+02:00") }],
    ["need-planned-end-passed", { plannedEndOn: on("2025-08-07") }],
    ["need-changed-to-tablets", { changedToTablets: true }],
    ["need-only-blood-sampling", { onlyBloodSampling: true }],
    ["need-second-device", { secondDeviceDoesTheJob: true }],
    ["need-nobody-flushes", { somebodyFlushes: false }],
  ] as const)("given %s, it is asked, and whether the next days are covered", (code, more) =>
    expect(codes(more)).toEqual([code, "need-covered-before-removal"]),
  );

  test("given several lines, the list is worst first and leaves out those in use", () => {
    const lines = [
      { ...needed, lineId: "in use" },
      { ...needed, lineId: "second device", secondDeviceDoesTheJob: true },
      { ...needed, lineId: "end passed", plannedEndOn: on("2025-08-01") },
      { ...needed, lineId: "end passed and idle", plannedEndOn: on("2025-08-01"), changedToTablets: true },
    ];
    const list = idleLines(lines, now, idleLimitsFrom(defaultPolicyTable));
    expect(list.map(({ lineId }) => lineId)).toEqual(["end passed and idle", "end passed", "second device"]);
  });

  test("given 47 hours on a ward or 13 days at home, it is not idle", () => {
    expect(codes({ lastUsedAt: at("2025-08-06T13:00+02:00") })).toEqual([]);
    expect(codes({ setting: "home", lastUsedAt: at("2025-07-26T12:00+02:00") })).toEqual([]);
  });

  test("given a fact that nobody asked, it is asked and gives no reason to remove", () => {
    expect(codes({ changedToTablets: notAsked, lastUsedAt: notAsked })).toEqual([
      "need-last-use-missing",
      "need-not-asked",
    ]);
  });

  test("given 90 days in place, a review is asked; a review starts the interval again; age removes nothing", () => {
    expect(codes({ placedOn: on("2025-05-10") })).toEqual(["long-dwell-review"]);
    expect(codes({ placedOn: on("2025-05-10"), lastLongDwellReviewOn: on("2025-07-01") })).toEqual([]);
    expect(codes({ placedOn: on("2025-05-11") })).toEqual([]);
  });

  test("given five idle lines, the sum is said to be small for one list", () => {
    const saved = daysSaved([12, 12, 12, 12, 12], idleLimitsFrom(defaultPolicyTable));
    expect(daysSavedSentence(saved)).toBe(
      "Taking out 5 lines today saves about 60 idle days. That is 0.07 infections: small for one list, real over a year.",
    );
  });
});
