import { describe, expect, test } from "vitest";
import { parseInstant, type Instant } from "../../src/core/calendar/index.ts";
import {
  judgeArmCircumference,
  judgeRemoval,
  lyticRefusals,
  MECHANICAL_STEPS,
  nextPatencyStep,
  nextResistanceStep,
  type ArmCircumference,
  type PatencyAnswers,
  type Removal,
  type ResistanceAnswers,
} from "../../src/core/care/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre, kilogram, millilitre } from "../../src/core/quantity/index.ts";
import { patencyLines, resistanceSentence, sayFinding } from "../../src/language/index.ts";
import { armLimitsFrom, defaultPolicyTable, patencyLimitsFrom, removalLimitsFrom } from "../../src/policy/index.ts";

/** A blocked line, a line that comes out and a swollen arm: given what was answered, then the one next step and why. */
const at = (text: string) => parseInstant(text) as Instant;
const notAsked = missing("not asked");

describe("a blocked line, one step at a time", () => {
  const patency = patencyLimitsFrom(defaultPolicyTable);
  const now = at("2025-06-03T10:00+02:00");
  const tried = Object.fromEntries(MECHANICAL_STEPS.map((step) => [step, "no change"])) as PatencyAnswers["mechanical"];
  const blank: PatencyAnswers = {
    mechanical: {},
    outsideLength: notAsked,
    flushes: notAsked,
    blood: notAsked,
    blockedSince: notAsked,
    cause: notAsked,
    pain: notAsked,
    earSound: notAsked,
    film: notAsked,
    weightKg: notAsked,
    labelLumenMl: notAsked,
    lytic: [],
  };
  const clot: PatencyAnswers = {
    ...blank,
    mechanical: tried,
    outsideLength: "as at the last film",
    flushes: "freely",
    blood: "none",
    cause: "blood",
    pain: false,
    earSound: false,
    weightKg: kilogram(40),
  };
  const step = (answers: PatencyAnswers, when = now) => nextPatencyStep(answers, when, patency);

  test("given nothing answered, the mechanical steps come first, in order, one at a time", () => {
    const order: string[] = [];
    let mechanical: PatencyAnswers["mechanical"] = {};
    for (let turn = 0; turn < MECHANICAL_STEPS.length; turn += 1) {
      const next = step({ ...blank, mechanical }).step;
      order.push(next);
      mechanical = { ...mechanical, [next]: "no change" };
    }
    expect(order).toEqual([...MECHANICAL_STEPS]);
    expect(step({ ...blank, mechanical }).step).toBe("outside length");
  });

  test("given a step that opened it, there is no next step", () => {
    expect(step({ ...blank, mechanical: { clamp: "flows again" } }).step).toBe("none");
    expect(step({ ...clot, flushes: "freely", blood: "freely" }).step).toBe("none");
  });

  test("given the mechanical steps, the order is length, kind, cause, symptoms, then drug", () => {
    const next = (more: Partial<PatencyAnswers>) => step({ ...blank, mechanical: tried, ...more }).step;
    const length = { outsideLength: "as at the last film" } as const;
    const kind = { ...length, flushes: "freely", blood: "none" } as const;
    const cause = { ...kind, cause: "blood" } as const;
    const symptoms = { ...cause, pain: false, earSound: false };
    expect([next({}), next(length), next(kind), next(cause), next(symptoms)]).toEqual([
      "outside length",
      "kind",
      "cause",
      "symptoms",
      "lytic facts",
    ]);
    expect(step({ ...clot }).step).toBe("lytic");
  });

  test("given it flushes without blood, it is a withdrawal occlusion and not open", () => {
    expect(step(clot).kind).toBe("withdrawal occlusion");
    expect(patencyLines(step(clot))).toContain("This is a withdrawal occlusion.");
  });

  test.each([
    ["length changed", { outsideLength: "changed" as const }],
    ["no film to compare", { outsideLength: "no film to compare" as const }],
    ["pain", { pain: true }],
    ["ear sound", { earSound: true }],
    ["no cause found", { cause: "nothing found" as const }],
  ] as const)("given %s, a film comes before any drug; the tip elsewhere stops it", (why, more) => {
    expect(step({ ...clot, ...more })).toMatchObject({ step: "film", why });
    expect(step({ ...clot, ...more, film: "tip where it was" }).step).toBe("lytic");
    expect(step({ ...clot, ...more, film: "tip elsewhere" }).step).toBe("tip elsewhere");
    expect(lyticRefusals({ ...clot, ...more }).map(({ code }) => code)).toEqual(["lytic-before-film"]);
  });

  test("given what was asked and nobody knows, it goes on to a film and not past it", () => {
    const notKnown = missing("not known");
    for (const [more, why] of [
      [{ outsideLength: notKnown }, "no film to compare"],
      [{ cause: notKnown }, "no cause found"],
      [{ pain: notKnown }, "symptoms not known"],
      [{ earSound: missing("refused") }, "symptoms not known"],
    ] as const) {
      expect(step({ ...clot, ...more })).toMatchObject({ step: "film", why });
      expect(lyticRefusals({ ...clot, ...more }).map(({ code }) => code)).toEqual(["lytic-before-film"]);
      expect(step({ ...clot, ...more, film: "tip where it was" }).step).toBe("lytic");
    }
    expect(step({ ...clot, outsideLength: missing("not measured") }).step).toBe("outside length");
  });

  test("given two drugs together or lipid, it goes to pharmacy and lytic is refused", () => {
    for (const cause of ["two drugs together", "lipid"] as const) {
      expect(step({ ...clot, cause }).step).toBe("pharmacy");
      expect(lyticRefusals({ ...clot, cause }).map(({ code }) => code)).toEqual(["lytic-for-precipitate"]);
    }
  });

  test("given nothing answered, lytic is refused with everything that stands before it", () => {
    expect(lyticRefusals(blank).map(({ code }) => code)).toEqual([
      "lytic-before-mechanical-steps",
      "lytic-before-outside-length",
      "lytic-before-kind",
      "lytic-before-cause",
      "lytic-before-symptoms",
    ]);
    expect(lyticRefusals(clot)).toEqual([]);
  });

  test("given resistance, the word about force goes with every step; a line that flushes freely has none", () => {
    expect(step({ ...clot, flushes: "not at all" }).findings.map(sayFinding)).toContain(
      "No force: never a syringe under 10 mL against resistance.",
    );
    expect(step(clot).findings).toEqual([]);
    expect(step(blank).findings.map(({ code }) => code)).toEqual(["no-force-on-resistance"]);
  });

  test("given a child, the label's lumen volume is asked and never taken from the French size", () => {
    const child = step({ ...clot, weightKg: kilogram(12) });
    expect(child.step).toBe("lytic facts");
    expect(child.findings.map(sayFinding)).toContain(
      "What lumen volume does the label give? The French size does not tell.",
    );
    const dosed = step({ ...clot, weightKg: kilogram(12), labelLumenMl: millilitre(0.35) });
    expect(patencyLines(dosed).join(" ")).toContain("One dose: 0.385\u202fmL (0.385\u202fmg)");
    // no trailing nought behind a dose: a rule of safe prescribing of long standing, from memory; 2 mg is the label's most
    const grown = step({ ...clot, weightKg: kilogram(70) });
    expect(patencyLines(grown).join(" ")).toContain("One dose: 2\u202fmL (2\u202fmg) in one lumen");
  });

  test("given a dose, the clock is kept: 30 minutes, 120 minutes, one repeat, then help", () => {
    const given = (first: boolean | undefined, second: boolean | undefined, when = "2025-06-03T10:00+02:00") => ({
      at: at(when),
      bloodAtFirstCheck: first ?? notAsked,
      bloodAtSecondCheck: second ?? notAsked,
    });
    const after = (lytic: PatencyAnswers["lytic"], when: string) => step({ ...clot, lytic }, at(when));
    expect(after([given(undefined, undefined)], "2025-06-03T10:29+02:00")).toMatchObject({
      step: "wait",
      dueAt: "2025-06-03T10:30+02:00",
      minutesSinceDose: 29,
      firstCheckAt: "2025-06-03T10:30+02:00",
      secondCheckAt: "2025-06-03T12:00+02:00",
    });
    expect(after([given(undefined, undefined)], "2025-06-03T10:30+02:00").step).toBe("check for blood");
    expect(after([given(false, undefined)], "2025-06-03T10:31+02:00")).toMatchObject({
      step: "wait",
      why: "second check not due",
      dueAt: "2025-06-03T12:00+02:00",
    });
    expect(after([given(false, undefined)], "2025-06-03T12:00+02:00").why).toBe("second check due");
    expect(after([given(true, undefined)], "2025-06-03T10:31+02:00").step).toBe("none");
    expect(after([given(true, false)], "2025-06-03T12:01+02:00").step).toBe("second lytic");
    expect(after([given(false, true)], "2025-06-03T12:01+02:00").step).toBe("none");
    expect(after([given(false, false)], "2025-06-03T12:01+02:00").step).toBe("second lytic");
    const twice = [given(false, false), given(false, false, "2025-06-03T12:05+02:00")];
    expect(after(twice, "2025-06-03T14:06+02:00").step).toBe("ask for help");
  });

  test("given a dose before its turn, its clock runs and what was missing is said", () => {
    const early = step({ ...blank, lytic: [{ at: now, bloodAtFirstCheck: notAsked, bloodAtSecondCheck: notAsked }] });
    expect(early.step).toBe("wait");
    expect(early.findings.map(sayFinding)).toContain(
      "Lytic was given too early: the outside length has not been compared.",
    );
  });
});

describe("taking it out", () => {
  const limitsOut = removalLimitsFrom(defaultPolicyTable);
  const whole: Removal = {
    placedCm: centimetre(45),
    trimmedLaterCm: centimetre(0),
    outCm: centimetre(45),
    tipIntact: true,
    infectionSuspected: false,
    tipSentForCulture: false,
  };
  const out = (more: Partial<Removal>) => judgeRemoval({ ...whole, ...more }, limitsOut);

  test("given 5.0 missing, it is incomplete and the patient stays", () => {
    const short = out({ outCm: centimetre(40) });
    expect(short.completeness).toBe("incomplete");
    expect(short.findings.map(sayFinding)).toContain("Incomplete: 5.0\u202fcm missing. Do not discharge; image now.");
    expect(short.findings[0]?.level).toBe("stop");
  });

  test("given a later trim, the record is shorter by it; given none written, it is asked", () => {
    expect(out({ trimmedLaterCm: centimetre(5), outCm: centimetre(40) }).completeness).toBe("complete");
    expect(out({ trimmedLaterCm: notAsked }).completeness).toBe("not known");
    expect(out({ trimmedLaterCm: notAsked }).findings.map(({ level }) => level)).toEqual(["ask"]);
  });

  test("given a tip that is not whole, it is incomplete whatever the length", () => {
    expect(out({ tipIntact: false }).completeness).toBe("incomplete");
    expect(out({ tipIntact: false, placedCm: notAsked }).completeness).toBe("incomplete");
    expect(out({ tipIntact: notAsked }).completeness).toBe("not known");
  });

  test("given more out than the record holds, the record is questioned", () =>
    expect(out({ outCm: centimetre(46) })).toMatchObject({ completeness: "not known" }));

  test("given no suspicion of infection, a tip sent for culture is noted; with one it may be sent", () => {
    expect(out({ tipSentForCulture: true }).findings.map(({ code }) => code)).toContain(
      "tip-culture-without-suspicion",
    );
    expect(out({ infectionSuspected: true }).findings.map(({ code }) => code)).toContain("tip-culture-for-suspicion");
  });

  test("given it is stuck, the steps are stop, heat, dress, retry, image, and force is none of them", () => {
    const now = at("2025-06-03T10:00+02:00");
    const stuck: ResistanceAnswers = {
      withdrawnCm: centimetre(6),
      rePositioned: false,
      heatedAt: notAsked,
      dressedAt: notAsked,
      retriedAfterRest: false,
    };
    const next = (more: Partial<ResistanceAnswers>, when = now) =>
      nextResistanceStep({ ...stuck, ...more }, when, limitsOut);
    expect(next({}).step).toBe("stop and re-position");
    expect(next({}).findings.map(sayFinding)).toEqual([
      "Never pull against resistance.",
      "Stuck with 6.0\u202fcm out: think of a clot.",
    ]);
    const turned = { rePositioned: true };
    expect(next(turned).step).toBe("heat and a warm drink");
    expect(next({ ...turned, heatedAt: now }, at("2025-06-03T10:09+02:00")).step).toBe("wait for the heat");
    expect(next({ ...turned, heatedAt: now }, at("2025-06-03T10:10+02:00")).step).toBe("dress and leave");
    const dressed = { ...turned, heatedAt: now, dressedAt: now };
    expect(resistanceSentence(next(dressed))).toBe(
      "Leave it dressed. Try between Tue 3 Jun 2025, 22:00 and Wed 4 Jun 2025, 10:00.",
    );
    expect(next(dressed, at("2025-06-03T22:00+02:00")).step).toBe("try again");
    expect(next({ ...dressed, retriedAfterRest: true }).step).toBe("image");
  });
});

describe("the girth of the arm", () => {
  const arm: ArmCircumference = {
    baseline: { circumferenceCm: centimetre(28), atCm: centimetre(10) },
    now: { circumferenceCm: centimetre(31), atCm: centimetre(10) },
    symptoms: true,
    oedema: true,
  };
  const code = (more: Partial<ArmCircumference>) =>
    judgeArmCircumference({ ...arm, ...more }, armLimitsFrom(defaultPolicyTable)).findings[0]?.code;

  test("given a rise of 3 cm with swelling, ultrasound; without symptoms it need not be measured", () => {
    expect(code({})).toBe("arm-rise-with-oedema");
    expect(code({ symptoms: false })).toBe("arm-no-symptoms");
    expect(code({ oedema: false })).toBe("arm-rise-without-oedema");
    expect(code({ now: { circumferenceCm: centimetre(30.9), atCm: centimetre(10) } })).toBe("arm-rise-below");
  });

  test("given another place on the arm, or none written, nothing is compared", () => {
    expect(code({ now: { circumferenceCm: centimetre(31), atCm: centimetre(12) } })).toBe("arm-places-differ");
    expect(code({ baseline: { circumferenceCm: centimetre(28), atCm: notAsked } })).toBe("arm-place-missing");
    expect(code({ baseline: { circumferenceCm: notAsked, atCm: centimetre(10) } })).toBe("arm-baseline-missing");
    expect(code({ symptoms: notAsked })).toBe("arm-symptoms-not-asked");
  });
});
