import { describe, expect, test } from "vitest";
import type { Instant } from "../../src/core/calendar/index.ts";
import {
  judgeRelease,
  sideAgreement,
  vesicantConditions,
  type Observation,
  type PassedStop,
  type ReleaseFacts,
} from "../../src/core/release/index.ts";
import { defaultPolicyTable, releasePolicyFrom, tableWithValues } from "../../src/policy/index.ts";

// The steps of an outside length and of symptoms are common practice, no single source; every number is a policy row.
// Each test leaves the device believing the line may be used, and the answer must refuse.

const policy = releasePolicyFrom(defaultPolicyTable);
const at = (day: number, clock = "10:00") => `2026-03-${String(day).padStart(2, "0")}T${clock}+00:00` as Instant;
const everything = ["vesicant", "parenteral nutrition", "other drug", "blood", "sampling"];

const seen = (day: number, found: Partial<Observation>): Observation => ({
  at: at(day),
  writtenAt: at(day),
  outsideCm: 2,
  second: undefined,
  measuredBy: "JT",
  bloodReturn: "yes",
  symptoms: [],
  ...found,
});

const facts = (...observations: readonly Observation[]): ReleaseFacts => ({
  tips: [{ at: at(2, "09:00"), kind: "read", place: "cavo-atrial junction", outsideCm: 2 }],
  releases: [{ at: at(2), writtenAt: at(2), uses: everything, by: "MK" }],
  observations,
  passed: [],
  uses: [],
  end: undefined,
  sidesAgree: true,
});
const judge = (given: ReleaseFacts, knownAt: Instant | undefined = at(20), now = at(20)) =>
  judgeRelease(given, knownAt, now, policy);
const codes = (given: ReleaseFacts) => judge(given).findings.map(({ code }) => code);

describe("given a release and a visit since, the line", () => {
  test.each([
    ["may be used when nothing changed", {}, "may be used"],
    ["may be used at 0.5 cm out: noise", { outsideCm: 2.5 }, "may be used"],
    ["is held at 0.6 cm out", { outsideCm: 2.6 }, "held"],
    ["is held at 1.9 cm out", { outsideCm: 3.9 }, "held"],
    ["is ended at 2.0 cm out", { outsideCm: 4 }, "ended"],
    ["may be used at 0.5 cm in", { outsideCm: 1.5 }, "may be used"],
    ["is ended at 0.6 cm in", { outsideCm: 1.4 }, "ended"],
    ["is restricted without blood return", { bloodReturn: "no" }, "restricted"],
    ["is ended without blood return and with pain", { bloodReturn: "no", symptoms: ["chest pain"] }, "ended"],
    ["is ended with any symptom alone", { symptoms: ["ear sound on flushing"] }, "ended"],
  ] as const)("%s", (_, found, state) => {
    expect(judge(facts(seen(5, found))).state).toBe(state);
  });

  test("held or restricted, no vesicant and no nutrition go in, the rest does", () => {
    for (const found of [{ outsideCm: 3 }, { bloodReturn: "no" }]) {
      expect(judge(facts(seen(5, found))).uses).toEqual(["other drug", "blood", "sampling"]);
    }
    expect(judge(facts(seen(5, { outsideCm: 4 }))).uses).toEqual([]);
  });
});

describe("what lifts and what does not", () => {
  test("a second measurer of another name who finds no change lifts the hold, the same person does not", () => {
    const held = seen(5, { outsideCm: 3 });
    const again = (by: string) => seen(5, { at: at(5, "11:00"), outsideCm: 3, second: { outsideCm: 2.2, by } });
    expect(judge(facts(held, again("AO"))).state).toBe("may be used");
    expect(judge(facts(held, again("jt"))).state).toBe("held");
  });

  test("one later length back at the old one does not lift a hold by itself", () => {
    expect(judge(facts(seen(5, { outsideCm: 3 }), seen(6, {}))).state).toBe("held");
  });

  test("blood that comes back lifts the restriction; a visit that did not try does not", () => {
    const lost = seen(5, { bloodReturn: "no" });
    expect(judge(facts(lost, seen(6, {}))).state).toBe("may be used");
    expect(judge(facts(lost, seen(6, { bloodReturn: undefined }))).state).toBe("restricted");
  });

  test("nothing but a new tip reading and a new release comes after an end", () => {
    const ended = facts(seen(5, { outsideCm: 5 }), seen(6, {}));
    expect(judge(ended).state).toBe("ended");
    const released = {
      ...ended,
      releases: [...ended.releases, { at: at(7), writtenAt: at(7), uses: everything, by: "MK" }],
    };
    expect(judge(released).state).toBe("ended");
    expect(codes(released)).toContain("release-needs-new-tip");
    const filmed = {
      ...released,
      tips: [...ended.tips, { at: at(6, "12:00"), kind: "read" as const, place: "cavo-atrial junction", outsideCm: 5 }],
    };
    expect(judge(filmed).state).toBe("may be used");
    expect(judge({ ...filmed, observations: [...filmed.observations, seen(8, { outsideCm: 5.4 })] }).state).toBe(
      "may be used",
    );
  });
});

// A sign that says nothing of the tip: common practice, no source; that fever alone speaks of no line and takes none out:
// Chopra V and others 2015, Ann Intern Med 163(6 suppl):S1. What may have moved the tip is read again, as above.
describe("what ended it says nothing of the tip", () => {
  const again = { at: at(8), writtenAt: at(8), uses: everything, by: "MK" };
  const after = (found: Partial<Observation>, more: Partial<ReleaseFacts> = {}): ReleaseFacts => {
    const given = facts(seen(5, found));
    return { ...given, releases: [...given.releases, again], ...more };
  };
  const settled = [{ at: at(7), writtenAt: at(7), passed: undefined }];
  const byTwo = (more: Partial<PassedStop> = {}) => ({
    at: at(7),
    writtenAt: at(7),
    passed: {
      at: at(7),
      writtenAt: at(7),
      why: "chest infection found",
      names: ["Ann", "Ben"] as const,
      role: "lead",
      ...more,
    },
  });

  test("fever: no release stands while it is open, one stands once an infection was ruled out, without a film", () => {
    const open = judge(after({ symptoms: ["fever", "chills"] }));
    expect(open).toMatchObject({ state: "ended", uses: [], stop: { code: "release-ended-sign-open" } });
    expect(open.findings.map(({ code }) => code)).toContain("release-sign-not-settled");
    expect(judge(after({ symptoms: ["fever"] }, { settled }))).toMatchObject({ state: "may be used", stop: undefined });
  });

  test("two people in the right role settle it, and their reason stands on the line", () => {
    const judged = judge(after({ symptoms: ["fever"] }, { settled: [byTwo()] }));
    expect(judged.state).toBe("may be used");
    expect(judged.findings).toMatchObject([{ code: "release-stop-passed", values: { why: "chest infection found" } }]);
    for (const one of [{ why: " " }, { names: ["Ann", "ann"] as const }, { role: "ward nurse" }]) {
      expect(judge(after({ symptoms: ["fever"] }, { settled: [byTwo(one)] })).state).toBe("ended");
    }
  });

  test.each([
    ["with a symptom of the arm, the chest, the heart or the ear", { symptoms: ["fever", "chest pain"] }],
    ["with a leak", { symptoms: ["fever", "leak"] }],
    ["and 2 cm out", { symptoms: ["fever"], outsideCm: 4 }],
    ["and 0.6 cm in", { symptoms: ["fever"], outsideCm: 1.4 }],
    ["and a move nobody measured", { symptoms: ["fever"], moved: true }],
    ["and a hard flush over a changed length", { symptoms: ["fever"], outsideCm: 3, flushes: "with resistance" }],
    ["no fever at all, only palpitations", { symptoms: ["palpitations"] }],
  ])("%s: a reading first, whatever was concluded", (_, found) => {
    expect(judge(after(found, { settled }))).toMatchObject({
      state: "ended",
      stop: { code: "release-ended-needs-new-tip" },
    });
  });

  test("concluded before the fever, or by somebody who could not know of it: still open", () => {
    const early = [{ at: at(4), writtenAt: at(4), passed: undefined }];
    expect(judge(after({ symptoms: ["fever"] }, { settled: early })).state).toBe("ended");
    const late = after({ symptoms: ["fever"], writtenAt: at(9) }, { settled });
    expect(codes(late)).toContain("release-given-without-knowing");
  });

  test("a small change found with the fever holds the line after it was settled", () => {
    expect(judge(after({ symptoms: ["fever"], outsideCm: 3 }, { settled })).state).toBe("held");
  });

  test("a new reading settles both, as before", () => {
    const tips = [...facts().tips, { at: at(7), kind: "read" as const, place: "cavo-atrial junction", outsideCm: 2 }];
    expect(judge(after({ symptoms: ["fever"] }, { tips })).state).toBe("may be used");
  });

  test("by local policy fever asks for a reading too, and a hard flush over a changed length may only hold", () => {
    const house = (values: Parameters<typeof tableWithValues>[1]) =>
      releasePolicyFrom(tableWithValues(defaultPolicyTable, values));
    const under = (given: ReleaseFacts, rules: typeof policy) => judgeRelease(given, at(20), at(20), rules);
    const strict = under(after({ symptoms: ["fever"] }, { settled }), house({ "release.silent-on-tip": [] }));
    expect(strict.stop?.code).toBe("release-ended-needs-new-tip");
    const hard = facts(seen(5, { outsideCm: 3, flushes: "with resistance" }));
    expect(judge(hard).state).toBe("ended");
    expect(under(hard, house({ "release.flush-after-move": false })).state).toBe("held");
  });
});

// a lumen nothing passes carries nothing: a fact, no source needed
describe("a line nothing goes through", () => {
  test("is for nothing until it runs; that it runs does not bring blood back", () => {
    const shut = seen(5, { flushes: "no", bloodReturn: "no" });
    expect(judge(facts(shut))).toMatchObject({ state: "blocked", uses: [] });
    expect(codes(facts(shut))).toEqual(["release-blocked"]);
    expect(judge(facts(shut, seen(6, { bloodReturn: undefined }))).state).toBe("blocked");
    const runs = judge(facts(shut, seen(6, { flushes: "with resistance", bloodReturn: undefined })));
    expect([runs.state, runs.uses]).toEqual(["restricted", ["other drug", "blood", "sampling"]]);
    expect(judge(facts(shut, seen(6, { flushes: "freely" }))).state).toBe("may be used");
  });
  test("a release signed meanwhile does not open it, and what was given is listed until it runs", () => {
    const given = facts(seen(5, { flushes: "no", bloodReturn: "no" }), seen(8, { flushes: "freely" }));
    const releases = [...given.releases, { at: at(6), writtenAt: at(6), uses: everything, by: "MK" }];
    const uses = [4, 7, 9].map((day) => ({ at: at(day), what: "sampling", by: "AO" }));
    expect(judge({ ...given, releases, uses }).usedSince.map((one) => one.at)).toEqual([at(7)]);
    expect(judge({ ...facts(seen(5, { flushes: "no" })), releases }).state).toBe("blocked");
  });
});

describe("when the last-known state is wrong", () => {
  test("a visit written late ends the release from when it happened, and lists every use since", () => {
    const late = seen(5, { outsideCm: 5, writtenAt: at(6) });
    const used = [
      { at: at(4), what: "vesicant", by: "AO" },
      { at: at(5, "11:00"), what: "vesicant", by: "AO" },
      { at: at(5, "16:00"), what: "sampling", by: "AO" },
    ];
    const judged = judge({ ...facts(late), uses: used });
    expect(judged.state).toBe("ended");
    expect(judged.usedSince.map(({ at: when }) => when)).toEqual([at(5, "11:00"), at(5, "16:00")]);
  });

  test("a hold that came before the end counts too: the vesicant in between is listed, the sampling is not", () => {
    const judged = judge({
      ...facts(seen(5, { outsideCm: 3 }), seen(7, { outsideCm: 5 })),
      uses: [
        { at: at(6), what: "vesicant", by: "AO" },
        { at: at(6), what: "sampling", by: "AO" },
        { at: at(8), what: "sampling", by: "AO" },
      ],
    });
    expect(judged.usedSince.map(({ at: when, what }) => `${when.slice(8, 10)} ${what}`)).toEqual([
      "06 vesicant",
      "08 sampling",
    ]);
  });

  test("a release signed by somebody who could not know of the visit before it does not stand", () => {
    const given = facts(seen(5, { outsideCm: 5, writtenAt: at(9) }));
    const again = {
      ...given,
      releases: [...given.releases, { at: at(6), writtenAt: at(6), uses: everything, by: "MK" }],
    };
    expect(judge(again).state).toBe("ended");
    expect(codes(again)).toContain("release-given-without-knowing");
  });

  test("nor does one signed before the film it stood on was read again as not central", () => {
    const given = facts();
    const film = { at: at(2, "09:00"), kind: "read", place: "azygos vein", outsideCm: 2 } as const;
    const again = { ...given, tips: [{ ...film, placeWrittenAt: at(9) }] };
    expect(judge(again).state).toBe("not released");
    expect(codes(again)).toEqual(["release-given-without-knowing"]);
    // nor does knowing where the tip lay make it a place to release on
    const knowing = judge({ ...given, tips: [{ ...film, placeWrittenAt: at(2, "09:00") }] });
    expect(knowing).toMatchObject({ state: "not released", uses: [] });
  });

  test("what was given on the word of a release that does not stand is listed", () => {
    const uses = [
      { at: at(2, "11:00"), what: "vesicant", by: "AO" },
      { at: at(2, "08:00"), what: "sampling", by: "AO" },
    ];
    const late = seen(2, { at: at(2, "09:30"), outsideCm: 6, writtenAt: at(9) });
    expect(judge({ ...facts(late), uses }).usedSince.map(({ what }) => what)).toEqual(["vesicant"]);
  });

  test.each([
    ["four hours after the last contact it still reads", at(20, "14:00"), "may be used"],
    ["a minute later it is not confirmed", at(20, "14:01"), "not confirmed"],
  ] as const)("%s", (_, now, state) => {
    const judged = judge(facts(), at(20), now);
    expect(judged.state).toBe(state);
    expect(judged.uses).toEqual(state === "may be used" ? everything : []);
  });

  test("a device that was never in touch confirms nothing, but an end stays an end", () => {
    expect(judgeRelease(facts(), undefined, at(20), policy).state).toBe("not confirmed");
    expect(judgeRelease(facts(seen(5, { outsideCm: 5 })), undefined, at(20), policy).state).toBe("ended");
  });

  test("a tip corrected after the release, or read outside the cava, ends it", () => {
    const moved = (tip: ReleaseFacts["tips"][number]) => ({ ...facts(), tips: [...facts().tips, tip] });
    expect(judge(moved({ at: at(4), kind: "corrected", place: undefined, outsideCm: 4 })).state).toBe("ended");
    expect(judge(moved({ at: at(4), kind: "read", place: "neck vein", outsideCm: 2 })).state).toBe("ended");
  });

  test.each(["removed", "unknown", "handed on"] as const)("a line that is %s is not used", (end) => {
    expect(judge({ ...facts(), end })).toMatchObject({ state: "ended", uses: [] });
  });

  // found on reading the rule again: what was seen between the film and the release counts as well
  test("a line that moved after its film and before its release was never fit to be released", () => {
    const between = facts(seen(2, { at: at(2, "09:30"), writtenAt: at(2, "09:30"), outsideCm: 6 }));
    expect(judge(between)).toMatchObject({ state: "not released", uses: [] });
    expect(codes(between)).toContain("release-needs-new-tip");
  });

  test("pain before the release, and no tip read since, refuses it too", () => {
    const between = facts(seen(2, { at: at(2, "09:30"), writtenAt: at(2, "09:30"), symptoms: ["chest pain"] }));
    expect(judge(between).uses).toEqual([]);
  });

  test("moved again after the new film: the next release does not stand", () => {
    const twice = facts(seen(5, { outsideCm: 5 }), seen(7, { outsideCm: 8 }));
    const given = {
      ...twice,
      tips: [...twice.tips, { at: at(6), kind: "read" as const, place: "cavo-atrial junction", outsideCm: 5 }],
      releases: [...twice.releases, { at: at(8), writtenAt: at(8), uses: everything, by: "MK" }],
    };
    expect(judge(given)).toMatchObject({ state: "ended", uses: [] });
  });

  test("a second release over a hold or without blood return lifts neither", () => {
    for (const [found, state] of [
      [{ outsideCm: 3 }, "held"],
      [{ bloodReturn: "no" }, "restricted"],
    ] as const) {
      const given = facts(seen(5, found));
      const again = {
        ...given,
        releases: [...given.releases, { at: at(6), writtenAt: at(6), uses: everything, by: "MK" }],
      };
      expect(judge(again).state).toBe(state);
      expect(judge(again).uses).not.toContain("vesicant");
    }
  });

  test("held and dry at once: lifting the hold leaves the missing blood return standing", () => {
    const both = seen(5, { outsideCm: 3, bloodReturn: "no" });
    const measured = seen(6, { outsideCm: 3, second: { outsideCm: 2, by: "AO" }, bloodReturn: undefined });
    expect(judge(facts(both, measured)).state).toBe("restricted");
  });

  test("sides that differ refuse the release whatever else is known", () => {
    expect(judge({ ...facts(), sidesAgree: false })).toMatchObject({ state: "not released", uses: [] });
  });

  test("released in a role that no account vouches for: it is said, also after a visit", () => {
    const given = facts(seen(5, {}));
    const unchecked = { ...given, releases: given.releases.map((one) => ({ ...one, checked: false })) };
    expect(codes(unchecked)).toEqual(["release-role-as-said"]);
    expect(codes(given)).toEqual([]);
    expect(judge(unchecked).state).toBe("may be used");
  });

  test("nobody released it", () => {
    expect(judge({ ...facts(), releases: [] })).toMatchObject({ state: "not released", uses: [] });
  });
});

describe("the arm in plan, placing and film", () => {
  const source = (
    from: "plan" | "placing" | "film" | "settled by two people",
    arm?: "right" | "left",
    number?: string,
  ) => ({
    from,
    arm,
    number,
  });
  test("all sources are shown and a difference refuses", () => {
    const judged = sideAgreement([source("plan", "right"), source("placing", "right"), source("film", "left", "P1")]);
    expect(judged.agree).toBe(false);
    expect(judged.sources).toHaveLength(3);
  });
  test("two people settle an arm, nobody a number", () => {
    const sources = [
      source("placing", "right", "P-1"),
      source("film", "left", "P 1"),
      source("settled by two people", "right"),
    ];
    expect(sideAgreement(sources).agree).toBe(true);
    expect(sideAgreement([...sources, source("plan", "right", "P-2")]).agree).toBe(false);
  });
  test("a film that does not say the arm or the number is no agreement", () => {
    expect(sideAgreement([source("placing", "right"), source("film")]).agree).toBe(false);
    expect(sideAgreement([source("placing", "right"), source("film", "right")]).agree).toBe(false);
  });
  test("a film without a side is asked about", () => {
    expect(sideAgreement([source("placing", "right"), source("film")]).findings.map(({ code }) => code)).toEqual([
      "side-missing",
      "film-number-missing",
    ]);
  });
});

describe("before a vesicant", () => {
  const met = (given: ReleaseFacts) => vesicantConditions(given, judge(given, at(20), at(20)), at(20), policy);
  test("every condition is met on a day the line was looked at", () => expect(met(facts(seen(20, {}))).met).toBe(true));
  test("yesterday's look is not today's", () => {
    const { met: all, conditions } = met(facts(seen(19, {})));
    expect(all).toBe(false);
    expect(conditions.map(({ verdict }) => verdict)).toEqual(["met", "met", "not known", "not known"]);
  });
  test("a moved or dry line is not met", () => {
    expect(met(facts(seen(20, { outsideCm: 4 }))).met).toBe(false);
    expect(met(facts(seen(20, { bloodReturn: "no" }))).met).toBe(false);
  });
});
