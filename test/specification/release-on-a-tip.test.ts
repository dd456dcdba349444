import { describe, expect, test } from "vitest";
import type { Instant } from "../../src/core/calendar/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre } from "../../src/core/quantity/index.ts";
import { judgeRelease, type FixedTip, type PassedStop, type ReleaseFacts } from "../../src/core/release/index.ts";
import type { FilmReading } from "../../src/core/tip/index.ts";
import { defaultPolicyTable, releasePolicyFrom, tableWithValues } from "../../src/policy/index.ts";

// A line is not released on a tip outside the good places: it is corrected and read again, or two people pass the stop.
// Common practice, no source; the good places: infusion nursing standards, from memory. The depth: Mahlon and Yoon 2007,
// J Vasc Interv Radiol 18:1106, junction 4.03 cm below the carina; by hand 7.3 / 1.12 - 4.03 = 2.488 cm too deep.

const policy = releasePolicyFrom(defaultPolicyTable);
const at = (clock: string) => `2026-03-02T${clock}+00:00` as Instant;
const everything = ["vesicant", "parenteral nutrition", "other drug", "blood", "sampling"];

const film = (filmCm: number): FilmReading => ({
  place: "right atrium",
  filmCm: centimetre(filmCm),
  magnification: 1.12,
  unitOnFilmCm: missing("not measured"),
  ageYears: 60,
  arm: "at the side",
  armConfirmedBy: "",
  outsideCm: centimetre(0.5),
  insideCm: centimetre(43.5),
  symptoms: missing("not asked"),
});
const read = (clock: string, place: string | undefined, filmCm?: number): FixedTip => ({
  at: at(clock),
  kind: "read",
  place,
  placeWrittenAt: at(clock),
  outsideCm: 2,
  ...(filmCm === undefined ? {} : { film: film(filmCm) }),
});
const corrected = (clock: string): FixedTip => ({ at: at(clock), kind: "corrected", place: undefined, outsideCm: 3 });
const released = (clock: string) => ({ at: at(clock), writtenAt: at(clock), uses: everything, by: "MK" });
const passed = (clock: string, more: Partial<PassedStop> = {}): PassedStop => ({
  at: at(clock),
  writtenAt: at(clock),
  why: "no other vein, antibiotic tonight",
  names: ["Ann Orr", "Ben Tole"],
  role: "inserter",
  ...more,
});

const line = (tips: readonly FixedTip[], more: Partial<ReleaseFacts> = {}): ReleaseFacts => ({
  tips,
  passed: [],
  releases: [released("12:00")],
  observations: [],
  uses: [],
  end: undefined,
  sidesAgree: true,
  ...more,
});
const judge = (facts: ReleaseFacts, rules = policy) => judgeRelease(facts, at("20:00"), at("20:00"), rules);
const codes = (facts: ReleaseFacts) => judge(facts).findings.map(({ code }) => code);

const TOO_DEEP = read("09:00", "right atrium", 7.3);
const HIGH = read("09:00", "upper or middle cava");
const GOOD = read("11:00", "cavo-atrial junction");

describe("given a last tip, when somebody releases the line, then", () => {
  test.each([
    ["above the good part of the cava", [HIGH], "release-tip-not-good"],
    ["in the neck", [read("09:00", "neck vein")], "release-tip-not-good"],
    ["in the azygos vein", [read("09:00", "azygos vein")], "release-tip-not-good"],
    ["nobody wrote where", [read("09:00", undefined)], "release-tip-place-missing"],
    ["nowhere read", [], "release-tip-not-read"],
    ["2.5 cm too deep", [TOO_DEEP], "release-tip-too-deep"],
    ["moved and not read again", [TOO_DEEP, corrected("10:00")], "release-tip-not-read-again"],
    [
      "read good, moved, and not read again",
      [read("09:00", "right atrium"), corrected("10:00")],
      "release-tip-not-read-again",
    ],
  ] as const)("tip %s: the release does not stand, and the reason is said", (_, tips, code) => {
    const facts = line(tips);
    expect(judge(facts)).toMatchObject({ state: "not released", uses: [], stop: { code } });
    expect(codes(facts)).toEqual([code, "release-over-stop"]);
  });

  test.each([
    ["at the junction", [GOOD]],
    ["corrected and filmed again", [TOO_DEEP, corrected("10:00"), GOOD]],
    ["repositioned from above and filmed again", [HIGH, corrected("10:00"), GOOD]],
    // 0.5 cm is the tape's noise: (4.03 + 0.5) x 1.12 = 5.07 cm on the film
    ["deep by less than a tape can draw back", [read("09:00", "right atrium", 5.07)]],
  ] as const)("tip %s: the release stands", (_, tips) => {
    expect(judge(line(tips))).toMatchObject({ state: "may be used", stop: undefined });
  });

  test("a tenth of a millimetre beyond the noise it does not", () => {
    expect(judge(line([read("09:00", "right atrium", 5.08)])).stop?.code).toBe("release-tip-too-deep");
  });

  test("what was given on the word of such a release is listed", () => {
    const uses = [{ at: at("13:00"), what: "sampling", by: "AO" }];
    expect(judge(line([HIGH], { uses })).usedSince).toEqual(uses);
  });
});

describe("given two people who pass the stop", () => {
  test("after it, before the release: released, their names and reason stand on the line", () => {
    const facts = line([TOO_DEEP], { passed: [passed("11:00")] });
    expect(judge(facts)).toMatchObject({ state: "may be used", uses: everything, stop: undefined });
    expect(codes(facts)).toEqual(["release-tip-too-deep", "release-stop-passed"]);
    expect(judge(facts).findings[1]?.values).toMatchObject({ names: ["Ann Orr", "Ben Tole"] });
  });

  test("a tip that is not central gets no vesicant and no nutrition even so", () => {
    const { state, uses } = judge(line([HIGH], { passed: [passed("11:00")] }));
    expect([state, uses]).toEqual(["may be used", ["other drug", "blood", "sampling"]]);
  });

  test.each([
    ["one person twice", { names: ["Ann", " ann "] as const }],
    ["no reason", { why: "  " }],
    ["one name", { names: ["Ann", ""] as const }],
    ["a role without the right", { role: "ward nurse" }],
    ["who wrote it before the tip was read", { writtenAt: at("08:59") }],
  ])("%s passes nothing", (_, more) => {
    const facts = line([TOO_DEEP], { passed: [passed("11:00", more)] });
    expect(judge(facts)).toMatchObject({ state: "not released", stop: { code: "release-tip-too-deep" } });
  });

  test("a passing speaks of the tip it was written on, not of the next", () => {
    const facts = line([TOO_DEEP, read("10:30", "neck vein")], { passed: [passed("10:00")] });
    expect(judge(facts)).toMatchObject({ state: "not released", stop: { code: "release-tip-not-good" } });
  });

  test("the stop may not be passed after the release", () => {
    expect(judge(line([TOO_DEEP], { passed: [passed("12:01")] })).state).toBe("not released");
    expect(judge(line([TOO_DEEP], { passed: [passed("12:01")] })).stop).toBeUndefined();
  });

  test("nobody passes an end by symptoms: a new reading comes first", () => {
    const observations = [
      {
        at: at("11:30"),
        writtenAt: at("11:30"),
        outsideCm: 6,
        second: undefined,
        measuredBy: "JT",
        bloodReturn: "yes",
        symptoms: [],
      },
    ];
    const facts = line([GOOD], { observations, passed: [passed("11:45")] });
    expect(judge(facts)).toMatchObject({ state: "not released", stop: { code: "release-ended-needs-new-tip" } });
  });
});

describe("a tip read while the line may be used", () => {
  test("too deep: the release is over, as it is for one above the cava", () => {
    const deep = line([GOOD, read("14:00", "right atrium", 7.3)]);
    expect(judge(deep)).toMatchObject({ state: "ended", uses: [] });
    expect(codes(deep)).toEqual(["release-tip-too-deep"]);
  });
});

describe("by local policy", () => {
  const house = (values: Parameters<typeof tableWithValues>[1]) =>
    releasePolicyFrom(tableWithValues(defaultPolicyTable, values));
  test("a house may release a corrected tip without a new film; one read elsewhere stays where it was read", () => {
    const rules = house({ "release.film-after-correction": false });
    expect(judge(line([TOO_DEEP, corrected("10:00")]), rules).state).toBe("may be used");
    expect(judge(line([HIGH, corrected("10:00")]), rules).stop?.code).toBe("release-tip-not-good");
  });
  test("a house says who may pass the stop", () => {
    const facts = line([TOO_DEEP], { passed: [passed("11:00")] });
    expect(judge(facts, house({ "release.override-roles": ["lead"] })).state).toBe("not released");
  });
});
