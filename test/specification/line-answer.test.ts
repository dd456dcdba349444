import { describe, expect, test } from "vitest";
import { addDays, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { SIGN_STOP, TIP_STOP } from "../../src/core/release/index.ts";
import { patencyEntry, sayLineFinding, sayRelease } from "../../src/language/index.ts";
import {
  careLimitsFrom,
  defaultPolicyTable,
  idleLimitsFrom,
  releasePolicyFrom,
  removalLimitsFrom,
  tipPolicyFrom,
} from "../../src/policy/index.ts";
import {
  answerLine,
  decideLine,
  filmOfLine,
  homeRound,
  leftOf,
  lineView,
  lotView,
  measured,
  referralView,
  reviews,
  todayList,
  weekendList,
  weekendOf,
  type Entry,
  type EventType,
  type LineView,
  type Subject,
  type TodayRow,
} from "../../src/register/index.ts";
import { historyOfEntries, inventedEntry } from "../invented-entry.ts";

// What a line's events mean under the rules: common practice, no single source; the calendar by any wall calendar.

const rules = {
  release: releasePolicyFrom(defaultPolicyTable),
  care: careLimitsFrom(defaultPolicyTable),
  idle: idleLimitsFrom(defaultPolicyTable),
  removal: removalLimitsFrom(defaultPolicyTable),
};
const values = (said: Record<string, unknown>): Entry =>
  Object.fromEntries(Object.entries(said).map(([key, value]) => [key, measured(value as never)])) as Entry;
type Said = readonly [type: EventType, day: number, said: Record<string, unknown>];
const at = (day: number, clock = "10:00") => `2026-03-${String(day).padStart(2, "0")}T${clock}+00:00` as Instant;

const of = (subject: Subject, said: readonly Said[]) =>
  historyOfEntries(
    subject,
    said.map(([type, day, data], index) =>
      inventedEntry({
        id: `e${index}`,
        subject,
        type,
        at: at(day, `10:${String(index).padStart(2, "0")}`),
        seen: index,
        data: values(data),
      }),
    ),
  );
const line = (...said: Said[]): LineView => lineView(of("line:a", said));
const placed: Said = ["LineInserted", 2, { patient: "x", arm: "right", insideCm: 41, outsideCm: 2 }];
const film = (day: number, arm: string): Said => [
  "TipRead",
  day,
  { arm, patientNumber: "P1", tipPlace: "cavo-atrial junction", outsideCm: 2, insideCm: 41 },
];
const settled = (day: number, secondName = "Ben"): Said => [
  "SideSettled",
  day,
  { arm: "right", firstName: "Ann", secondName },
];
const answer = (view: LineView, day = 20) =>
  answerLine(view, { arm: undefined, number: "P1" }, at(day), at(day), rules);
const codes = (findings: readonly { readonly code: string }[]) => findings.map(({ code }) => code);

describe("the arm", () => {
  test("two people who settled it speak of the film they had, not of a later one", () => {
    expect(answer(line(placed, film(3, "left"), settled(4))).sides.agree).toBe(true);
    expect(answer(line(placed, film(3, "left"), settled(4), film(5, "left"))).sides.agree).toBe(false);
  });
  test("one person twice settles nothing, wherever the entry came from", () => {
    expect(answer(line(placed, film(3, "left"), settled(4, " ann"))).sides.agree).toBe(false);
  });
  test("a release is refused at signing while the sides differ", () => {
    const view = line(placed, film(3, "left"));
    const stamp = { happenedAt: at(6), writtenAt: at(6), author: { role: "inserter" as const } };
    const known = (sidesAgree: boolean) => ({ sidesAgree, stop: undefined, overrideRoles: ["inserter"] });
    const { sides } = answer(view);
    expect(decideLine(view, "LineReleased", {}, stamp, known(sides.agree))).toMatchObject({
      code: "release-sides-differ",
    });
    const whole = values({ uses: ["blood"], releasedBy: "Ann", toldTo: "Ben" });
    expect(decideLine(view, "LineReleased", whole, stamp, known(true))).toEqual({ kind: "accepted" });
    const empty = { code: "release-needs-uses-and-names" };
    expect(decideLine(view, "LineReleased", {}, stamp, known(true))).toMatchObject(empty);
    expect(decideLine(view, "LineReleased", { ...whole, ...values({ uses: [] }) }, stamp, known(true))).toMatchObject(
      empty,
    );
  });
});

describe("trouble that was written down", () => {
  const given: Said = [
    "LineReleased",
    3,
    { uses: ["vesicant", "parenteral nutrition", "blood"], releasedBy: "A", toldTo: "B" },
  ];
  const ready = [placed, film(3, "right"), given] as const;
  const step = (answered: string): Said => ["PatencyStepTaken", 5, { step: "cough", answer: answered }];
  // no return is an occlusion even where it flushes (a hospital group's policy on occlusion, as stored); what is off is local policy
  test("a step with a blocked line narrows the release as a visit without blood return does", () => {
    const told = answer(line(...ready, step("no change"))).release;
    const visited = answer(line(...ready, ["CareGiven", 5, { bloodReturn: "no" }])).release;
    expect(answer(line(...ready)).release.uses).toContain("vesicant");
    expect(told.state).toBe("restricted");
    expect(told.uses).toEqual(visited.uses);
    expect(told.uses).toEqual(["blood"]);
  });
  test("a step that helped opens nothing by itself: only a visit sees blood come back", () => {
    expect(answer(line(...ready, step("no change"), step("flows again"))).release.state).toBe("restricted");
    const seen: Said = ["CareGiven", 6, { bloodReturn: "yes", outsideCm: 2 }];
    expect(answer(line(...ready, step("no change"), step("flows again"), seen)).release.state).toBe("may be used");
    expect(answer(line(...ready, step("flows again"))).release.state).toBe("may be used");
  });
  // fever without proof that the line is infected is no reason to take it out: Chopra V and others 2015, Ann Intern Med 163(6 suppl):S1
  test("fever stands the same whichever form it is written in, and stays said until somebody concludes", () => {
    const suspected: Said = ["InfectionSuspected", 5, { signs: ["fever"], otherSource: "none found" }];
    const told = answer(line(...ready, suspected));
    expect(told.release.state).toBe(answer(line(...ready, ["CareGiven", 5, { symptoms: ["fever"] }])).release.state);
    expect(told.release.state).toBe("ended");
    const said = [...told.release.findings, ...told.need].map(sayLineFinding).join(" ");
    expect(said).toContain("cultures from line and vein before antibiotics");
    expect(said).toContain("Fever alone takes no line out; shock may.");
    expect(said).not.toContain("Image");
    expect(codes(told.need)).toContain("line-infection-suspected");
    const concluded: Said = ["InfectionConcluded", 9, { clinical: "no" }];
    expect(codes(answer(line(...ready, suspected, concluded)).need)).not.toContain("line-infection-suspected");
  });
  test("fever is released again once a named person rules an infection out, and not by an unknown or unnamed one", () => {
    const suspected: Said = ["InfectionSuspected", 5, { signs: ["fever"], otherSource: "none found" }];
    const after = (clinical: string, concludedBy: string, more: readonly Said[] = []) =>
      answer(line(...ready, suspected, ["InfectionConcluded", 9, { clinical, concludedBy }], ...more));
    const anew: Said = ["LineReleased", 9, { uses: ["blood"], releasedBy: "A", toldTo: "B" }];
    expect(after("no", "Dr Wren").release.stop).toBeUndefined();
    expect(after("no", "Dr Wren", [anew]).release).toMatchObject({ state: "may be used", uses: ["blood"] });
    for (const [clinical, by] of [
      ["no", " "],
      ["not known", "Dr Wren"],
      ["yes", "Dr Wren"],
    ] as const) {
      expect(after(clinical, by, [anew]).release, clinical).toMatchObject({ state: "ended", uses: [] });
    }
    // a conclusion that is not known concludes nothing
    expect(codes(after("not known", "Dr Wren").need)).toContain("line-infection-suspected");
    const { stop } = after("yes", "Dr Wren").release;
    const said = sayLineFinding(stop!);
    expect(said).toContain("Ended by fever.");
    expect(said).not.toContain("Read the tip");
    const known = { sidesAgree: true, stop, overrideRoles: rules.release.overrideRoles };
    const stamp = { happenedAt: at(9), writtenAt: at(9), author: { role: "lead" as const } };
    const view = line(...ready, suspected);
    expect(decideLine(view, "LineReleased", {}, stamp, known)).toMatchObject({ code: "release-over-open-sign" });
    const two = { code: SIGN_STOP, why: "pneumonia found", firstName: "Ann", secondName: "Ben" };
    const nurse = { ...stamp, author: { role: "ward nurse" as const } };
    expect(decideLine(view, "StopOverridden", values(two), nurse, known)).toMatchObject({
      code: "override-needs-another-role",
    });
    const passed = (code: string) =>
      answer(line(...ready, suspected, ["StopOverridden", 9, { ...two, code }], anew)).release.state;
    expect(passed(SIGN_STOP)).toBe("may be used");
    expect(passed(TIP_STOP)).toBe("ended");
  });
  test("the words of the steps on the page count as at a visit", () => {
    const told = (...found: readonly (readonly [string, string])[]) =>
      answer(line(...ready, step(patencyEntry([["clamp", "no change"], ...found])["answer"]!))).release;
    expect(told(["flushes", "not at all"], ["blood", "none"])).toMatchObject({ state: "blocked", uses: [] });
    expect(sayRelease(told(["flushes", "not at all"]))).toContain("Blocked: for nothing until it runs.");
    expect(told(["flushes", "slowly"]).state).toBe("restricted");
    for (const one of [
      ["pain", "yes"],
      ["earSound", "yes"],
      ["outsideLength", "changed"],
      ["film", "tip elsewhere"],
    ] as const) {
      expect(told(one), one.join(" ")).toMatchObject({ state: "ended", stop: { code: "release-ended-needs-new-tip" } });
    }
    for (const one of [
      ["pain", "no"],
      ["outsideLength", "as at the last film"],
      ["film", "tip where it was"],
    ] as const) {
      expect(told(one).state, one.join(" ")).toBe("restricted");
    }
    const shut = step("no change; flushes not at all");
    expect(answer(line(...ready, shut, step("flows again"))).release.state).toBe("restricted");
  });
  test("a line found further out is imaged and never pushed back", () => {
    const moved = answer(line(...ready, ["CareGiven", 6, { outsideCm: 6 }])).release.findings.map(sayLineFinding);
    expect(moved.join(" ")).toContain("Image first. Never push it back.");
  });
});

describe("what came out", () => {
  const out = (lengthOutCm: number): Said => [
    "LineRemoved",
    9,
    { reason: "treatment ended", lengthOutCm, tipWhole: true },
  ];
  const slid = (outsideCm: number): Said => ["CareGiven", 8, { outsideCm }];
  test("the whole catheter is as long as it was, however far it slid out or in since", () => {
    for (const outsideCm of [2, 6, 0.5]) {
      expect(codes(answer(line(placed, film(3, "right"), slid(outsideCm), out(43))).removal)).toContain(
        "removal-complete",
      );
      expect(codes(answer(line(placed, film(3, "right"), slid(outsideCm), out(38))).removal)).toContain(
        "removal-incomplete",
      );
    }
  });
});

describe("what is due and what is asked", () => {
  test("care nobody wrote down is never taken as done", () => {
    const due = answer(line(placed)).due.filter(({ why }) => why === "never written down");
    expect(due.map(({ what }) => what).sort()).toEqual(["connector", "dressing", "flush", "need review"]);
  });
  test("needed no more is said as that, and not as tablets", () => {
    const need = codes(answer(line(placed, ["CareGiven", 8, { stillNeeded: "no" }])).need);
    expect(need).toContain("line-not-needed");
    expect(need).not.toContain("need-changed-to-tablets");
  });
});

describe("the lists", () => {
  const row = (subject: string, more: Partial<TodayRow> = {}): TodayRow => ({
    subject: `line:${subject}`,
    patient: undefined,
    place: "Ward 1",
    owner: "A",
    setting: "ward",
    visitOrder: undefined,
    release: "may be used",
    due: [],
    firstDueDay: 99_999_999,
    asks: 0,
    stops: 0,
    released: true,
    suspected: false,
    look: undefined,
    ...more,
  });
  const names = (rows: readonly TodayRow[]) => rows.map(({ subject }) => subject.slice(5)).join("");
  // 2026-03-05 is a Thursday, day 20517 since 1970-01-01
  const thursday = "2026-03-05" as CivilDate;

  test("each line stands once, under the gravest of its reasons, the longest due first", () => {
    const list = todayList(
      [
        row("a", { firstDueDay: 20_517 }),
        row("b", { firstDueDay: 20_510 }),
        row("c", { release: "ended", firstDueDay: 20_500 }),
        row("d", { owner: "", release: "ended" }),
        row("e", { released: false, release: "not released" }),
        row("f", { asks: 1, firstDueDay: 20_518 }),
        row("h", { suspected: true, firstDueDay: 20_519 }),
        row("g", { firstDueDay: 20_518 }),
        row("k", { firstDueDay: 20_530, look: { doseAt: at(5), at: at(5, "10:30") } }),
      ],
      thursday,
    );
    expect(names(list.dueNow)).toBe("kba");
    expect([list.notToUse, list.unowned, list.notReleased, list.stillNeeded].map(names)).toEqual(["ch", "d", "e", "f"]);
    expect(list.rest).toBe(1);
  });

  test.each([
    ["2026-03-05", "2026-03-07"],
    ["2026-03-06", "2026-03-07"],
    ["2026-03-07", "2026-03-07"],
    ["2026-03-08", "2026-03-07"],
    ["2026-03-09", "2026-03-14"],
  ])("seen from %s the weekend begins on Saturday %s", (day, saturday) => {
    expect(weekendOf(day as CivilDate)[0]).toBe(saturday);
  });

  test("up to Monday, those nobody is named for first; Tuesday is not the weekend", () => {
    const rows = [
      row("a", { firstDueDay: 20_519 }),
      row("b", { firstDueDay: 20_521, owner: "" }),
      row("c", { firstDueDay: 20_522 }),
    ];
    expect(names(weekendList(rows, thursday))).toBe("ba");
  });

  test("the round goes in the order a person set, the rest by place", () => {
    const home = (subject: string, more: Partial<TodayRow>) => row(subject, { setting: "home", ...more });
    const rows = [
      home("a", { place: "Z" }),
      home("b", { visitOrder: 2 }),
      home("c", { visitOrder: 1 }),
      home("d", { place: "B" }),
      row("e"),
    ];
    expect(names(homeRound(rows))).toBe("cbda");
  });

  test("what is left of a lot: received, less discarded, less used", () => {
    const lot = lotView(
      of("lot:l", [
        ["LotReceived", 1, { lotNumber: "LX 10", count: 10 }],
        ["LotDiscarded", 2, { count: 2, why: "wet" }],
      ]),
    );
    expect(leftOf(lot, [line(["LineInserted", 2, { lotNumber: "lx-1O" }]), line(placed)])).toBe(7);
  });
});

describe("what is read together", () => {
  const options = { backDays: 31, keepVeinsBelow: 45 };
  const suspectedOn = (day: number): Said => ["InfectionSuspected", day, { signs: ["fever"], whoDecides: "Dr Ash" }];
  const suspected = suspectedOn(5);
  const concluded = (clinical: string): Said => ["InfectionConcluded", 6, { clinical }];
  const today = "2026-03-20" as CivilDate;

  test("a suspected infection stays on the list until somebody says yes or no", () => {
    const open = line(placed, suspected);
    const unclear = line(placed, suspected, concluded("not known"));
    const closed = line(placed, suspected, concluded("no"));
    const again = line(placed, suspected, concluded("no"), suspectedOn(9));
    const listed = reviews([open, unclear, closed, again], [], today, options).openInfections;
    expect(listed.map((row) => row.line)).toEqual([open, unclear, again]);
  });

  test("a passed stop is listed for a month and no longer", () => {
    const passed = line(placed, ["StopOverridden", 10, { code: "x", why: "y", firstName: "Ann", secondName: "Ben" }]);
    const day = passed.happenings[1]?.event.happenedAt.slice(0, 10) as CivilDate;
    const after = (days: number) => reviews([passed], [], addDays(day, days), options).passedStops.length;
    expect([after(0), after(31), after(32)]).toEqual([1, 1, 0]);
  });

  test("kidneys are known by filtration, dialysis or diagnosis, and an eGFR at the limit is not below it", () => {
    const referral = (data: Record<string, unknown>) => referralView(of("referral:r", [["ReferralReceived", 1, data]]));
    const listed = (data: Record<string, unknown>) => reviews([], [referral(data)], today, options).kidneys.length;
    expect(listed({ eGfr: 44 })).toBe(1);
    expect(listed({ eGfr: 45 })).toBe(0);
    expect(listed({ onDialysis: true })).toBe(1);
    expect(listed({ diagnosisGroup: "kidney disease" })).toBe(1);
    expect(listed({ kidneyKnown: true })).toBe(0);
  });
});

describe("a film that asks for a withdrawal", () => {
  const deep: Said = [
    "TipRead",
    3,
    {
      method: "film",
      arm: "right",
      armPosition: "at the side",
      tipPlace: "right atrium",
      filmCm: 7.3,
      magnification: 1.12,
      outsideCm: 0.5,
      insideCm: 43.5,
    },
  ];
  const given: Said = ["LineReleased", 4, { uses: ["blood"], releasedBy: "Ann", toldTo: "Ben" }];
  const asked = (view: LineView) => filmOfLine(view, "1961-07-19", tipPolicyFrom(defaultPolicyTable));

  test("stops the release at the button until it is corrected and filmed, or the stop is passed", () => {
    const person = { arm: undefined, number: undefined, bornOn: "1961-07-19" };
    const judged = (view: LineView) => answerLine(view, person, at(20), at(20), rules).release;
    const stopped = line(placed, deep);
    const { stop } = judged(stopped);
    const stamp = (role: "inserter" | "ward nurse") => ({ happenedAt: at(6), writtenAt: at(6), author: { role } });
    const known = { sidesAgree: true, stop, overrideRoles: rules.release.overrideRoles };
    const whole = values({ uses: ["blood"], releasedBy: "Ann", toldTo: "Ben" });
    const pass = { code: TIP_STOP, why: "palliative, days", firstName: "Ann", secondName: "Ben" };
    const decide = (type: EventType, entry: Entry, role: "inserter" | "ward nurse" = "inserter") =>
      decideLine(stopped, type, entry, stamp(role), known);
    expect(stop).toMatchObject({ code: "release-tip-too-deep", level: "stop" });
    expect(decide("LineReleased", whole)).toMatchObject({ code: "release-over-tip-stop" });
    expect(decide("StopOverridden", values(pass))).toEqual({ kind: "accepted" });
    expect(decide("StopOverridden", values(pass), "ward nurse")).toMatchObject({ code: "override-needs-another-role" });
    expect(decide("StopOverridden", values({ ...pass, why: " " }))).toMatchObject({ code: "override-needs-a-reason" });
    const once = values({ ...pass, secondName: "ann" });
    expect(decide("StopOverridden", once)).toMatchObject({ code: "two-different-names-needed" });
    expect(judged(line(placed, deep, ["StopOverridden", 5, pass])).stop).toBeUndefined();
    expect(judged(line(placed, deep, ["TipCorrected", 5, { outsideCm: 3, insideCm: 41 }])).stop).toBeDefined();
    expect(judged(line(placed, deep, ["TipCorrected", 5, { outsideCm: 3 }], film(6, "right"))).stop).toBeUndefined();
    // a visit does not draw a tip back
    expect(judged(line(placed, deep, ["CareGiven", 5, { outsideCm: 0.5 }])).stop).toEqual(stop);
  });

  test("still asks after a release, and no more once it is corrected or its length read again", () => {
    expect(asked(line(placed, deep))).toMatchObject({ answer: { kind: "withdraw" }, releasedOnIt: false });
    expect(asked(line(placed, deep, given))).toMatchObject({ answer: { kind: "withdraw" }, releasedOnIt: true });
    expect(asked(line(placed, deep, ["TipCorrected", 4, { outsideCm: 3, insideCm: 41 }]))).toBe("past");
    expect(asked(line(placed, deep, ["CareGiven", 5, { outsideCm: 0.5 }]))).toBe("past");
    expect(asked(line(placed))).toBe("not read");
  });
});
