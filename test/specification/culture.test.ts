import { describe, expect, test } from "vitest";
import { parseInstant, type Instant } from "../../src/core/calendar/index.ts";
import {
  differentialTime,
  judgeCultures,
  judgeQuantitative,
  judgeTipCulture,
  type CultureBottle,
} from "../../src/core/complication/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { millilitre } from "../../src/core/quantity/index.ts";
import { cultureLines, sayFinding } from "../../src/language/index.ts";
import { cultureLimitsFrom, defaultPolicyTable } from "../../src/policy/index.ts";

/** Times and counts of cultures: given the bottles, then criterion met, not met, or indeterminate with each reason. */
const at = (text: string) => parseInstant(text) as Instant;
const notAsked = missing("not asked");
const limits = cultureLimitsFrom(defaultPolicyTable);

const bottle = (more: Partial<CultureBottle>): CultureBottle => ({
  id: "peripheral",
  site: { kind: "peripheral" },
  medium: notAsked,
  drawnAt: at("2025-06-03T10:00+02:00"),
  loadedAt: at("2025-06-03T10:20+02:00"),
  flaggedAt: at("2025-06-03T21:05+02:00"),
  organism: "Staphylococcus epidermidis",
  volumeMl: millilitre(10),
  ...more,
});
const fromLumen = (more: Partial<CultureBottle> = {}) =>
  bottle({ id: "lumen 1", site: { kind: "lumen", lumen: "1" }, flaggedAt: at("2025-06-03T19:05+02:00"), ...more });

describe("times of cultures", () => {
  test("given a valid pair 120 min apart the criterion is met; at 119 it is not", () => {
    expect(differentialTime(fromLumen(), bottle({}), false, limits).outcome).toBe("criterion met");
    const late = bottle({ flaggedAt: at("2025-06-03T21:04+02:00") });
    expect(differentialTime(fromLumen(), late, false, limits).outcome).toBe("criterion not met");
  });

  test("given loading 3.5 h apart, 105 min is shown and indeterminate, and the laboratory is asked", () => {
    const late = bottle({ loadedAt: at("2025-06-03T13:50+02:00"), flaggedAt: at("2025-06-04T00:20+02:00") });
    const answer = judgeCultures([fromLumen(), late], false, limits);
    const lines = cultureLines(answer, sayFinding);
    expect(answer.outcome).toBe("indeterminate");
    expect(answer.pairs[0]).toMatchObject({ lineMin: 525, peripheralMin: 630, differentialMin: 105 });
    expect(lines).toContain("- Not judged: loaded 210 min apart, more than 30.");
    expect(lines).toContain("- lumen 1, peripheral: Loaded 210 min apart, more than 30. Ask why.");
    expect(lines.join(" ")).not.toMatch(/\b(positive|negative)\b/i);
  });

  test.each([
    ["another organism", { organism: "Candida albicans" }, "culture-same-organism"],
    ["no organism named", { organism: notAsked }, "culture-organism-missing"],
    ["drawn 20 min apart", { drawnAt: at("2025-06-03T10:20+02:00") }, "culture-draw-gap"],
    ["no draw time", { drawnAt: notAsked }, "culture-draw-gap-missing"],
    ["half the volume", { volumeMl: millilitre(5) }, "culture-volumes"],
    ["no volume", { volumeMl: notAsked }, "culture-volume-missing"],
    ["no flag", { flaggedAt: "none" as const }, "culture-did-not-flag"],
    ["no word about a flag", { flaggedAt: notAsked }, "culture-flag-missing"],
    ["no loading time", { loadedAt: notAsked }, "culture-loading-missing"],
    ["flagged before loaded", { flaggedAt: at("2025-06-03T10:10+02:00") }, "culture-times-out-of-order"],
  ] as const)("given %s, it is indeterminate and says so", (_, more, code) => {
    const answer = differentialTime(fromLumen(), bottle(more), false, limits);
    expect(answer.outcome).toBe("indeterminate");
    expect(answer.findings.filter(({ verdict }) => verdict !== "met").map((one) => one.code)).toContain(code);
  });

  test("given an antibiotic before, or nobody asked, it is indeterminate", () => {
    for (const before of [true, notAsked] as const)
      expect(differentialTime(fromLumen(), bottle({}), before, limits).outcome).toBe("indeterminate");
  });

  test("given two lumens, one that meets it suffices; given one indeterminate and one not met, it stays open", () => {
    const second = (more: Partial<CultureBottle>) =>
      fromLumen({ id: "lumen 2", site: { kind: "lumen", lumen: "2" }, ...more });
    const late = { flaggedAt: at("2025-06-03T20:50+02:00") };
    expect(judgeCultures([fromLumen(), second(late), bottle({})], false, limits).outcome).toBe("criterion met");
    expect(judgeCultures([fromLumen(late), second(late), bottle({})], false, limits).outcome).toBe("criterion not met");
    expect(judgeCultures([fromLumen(late), second({ volumeMl: notAsked }), bottle({})], false, limits).outcome).toBe(
      "indeterminate",
    );
  });

  test("given bottles of two media, like is compared with like", () => {
    const answer = judgeCultures(
      [
        fromLumen({ medium: "aerobic" }),
        bottle({ id: "anaerobic", medium: "anaerobic", flaggedAt: at("2025-06-03T19:10+02:00") }),
        bottle({ id: "aerobic", medium: "aerobic" }),
      ],
      false,
      limits,
    );
    expect(answer.pairs.map(({ peripheral }) => peripheral.id)).toEqual(["aerobic"]);
    expect(
      judgeCultures([fromLumen({ medium: "aerobic" }), bottle({ medium: "anaerobic" })], false, limits).findings[0]
        ?.code,
    ).toBe("culture-no-like-medium");
  });

  test("given a medium in which neither bottle grew, the other medium decides", () => {
    const pair = (medium: "aerobic" | "anaerobic", more: Partial<CultureBottle>) => [
      fromLumen({ id: `lumen ${medium}`, medium, ...more }),
      bottle({ id: `arm ${medium}`, medium, ...more }),
    ];
    const silent = pair("anaerobic", { flaggedAt: "none" });
    const late = [...silent, ...pair("aerobic", { flaggedAt: at("2025-06-03T20:00+02:00") })];
    expect(judgeCultures(late, false, limits).outcome).toBe("criterion not met");
    expect(judgeCultures(silent, false, limits).outcome).toBe("indeterminate");
  });

  test("given two draws, each bottle of the line is held to the peripheral bottle drawn with it", () => {
    const second = { drawnAt: at("2025-06-03T15:00+02:00"), loadedAt: at("2025-06-03T15:20+02:00") };
    const answer = judgeCultures(
      [
        fromLumen(),
        bottle({}),
        fromLumen({ id: "lumen 1, later", ...second, flaggedAt: at("2025-06-04T00:20+02:00") }),
        bottle({ id: "peripheral, later", ...second, flaggedAt: at("2025-06-04T01:20+02:00") }),
      ],
      false,
      limits,
    );
    expect(answer.pairs.map(({ line, peripheral }) => [line.id, peripheral.id])).toEqual([
      ["lumen 1", "peripheral"],
      ["lumen 1, later", "peripheral, later"],
    ]);
    expect(answer.outcome).toBe("criterion met");
  });

  test("given no peripheral sample, two lumens stand side by side and no criterion by time is held", () => {
    const other = fromLumen({
      id: "lumen 2",
      site: { kind: "lumen", lumen: "2" },
      flaggedAt: at("2025-06-03T22:05+02:00"),
    });
    const answer = judgeCultures([fromLumen(), other], false, limits);
    expect(answer.outcome).toBe("indeterminate");
    expect(answer.findings.map(sayFinding)).toEqual([
      "No peripheral bottle: the times cannot be compared.",
      "Two lumens flagged 180 min apart. No criterion by time is held.",
    ]);
    const counts = judgeQuantitative({ lineCfuPerMl: 100, otherCfuPerMl: 300, other: "second lumen" }, limits);
    expect(counts.findings.map(({ code, verdict }) => [code, verdict])).toEqual([["quantitative-fold", "met"]]);
  });

  test("given growth from one sample only, no fold is given; a broth of a tip counts nothing", () => {
    expect(
      judgeQuantitative({ lineCfuPerMl: 300, otherCfuPerMl: 0, other: "peripheral" }, limits).fold,
    ).toBeUndefined();
    expect(judgeTipCulture("broth", 500, limits).code).toBe("tip-broth-not-used");
    expect(judgeTipCulture("roll-plate", notAsked, limits).verdict).toBe("not known");
  });
});
