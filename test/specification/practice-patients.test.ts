import { describe, expect, test } from "vitest";
import { readCase } from "../../src/contract/index.ts";
import { bedsidePlan } from "../../src/core/line-plan/index.ts";
import { answerSentence, offerSentence, sayFinding } from "../../src/language/index.ts";
import { defaultPolicy, planPolicyFrom } from "../../src/policy/index.ts";
import { demoShelf, practicePatients } from "../../src/practice/index.ts";

const policy = planPolicyFrom(defaultPolicy.table);

function plan(id: string) {
  const patient = practicePatients.find((one) => one.id === id);
  if (!patient) throw new Error(`no practice patient ${id}`);
  const reading = readCase(patient.planCase, demoShelf);
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  const result = bedsidePlan(reading.input, policy);
  const findings = [
    ...result.answer.findings,
    ...(result.answer.chosen?.findings ?? []),
    ...(result.length?.findings ?? []),
  ];
  return {
    ...result,
    codes: findings.filter(({ level }) => level === "ask" || level === "stop").map(({ code }) => code),
    sentence: answerSentence(result.answer, reading.input.shelf),
  };
}

describe("what each practice patient teaches", () => {
  test("a plain start is planned, with every rule met", () => {
    const { answer, trim, sentence } = plan("plain");
    expect(answer.outcome).toBe("planned");
    expect(answer.chosen?.armBand).toBe("preferred half");
    expect(trim && trim.totalCm - trim.insideCm).toBeCloseTo(3, 10);
    expect(sentence).toMatch(/^RIGHT ARM\. Mark the skin at \d+\.\d\u202fcm\. Enter the basilic vein at/);
  });

  test("44 per cent is asked about, never a yes", () => {
    const { answer, codes } = plan("coin-flip");
    expect(answer.outcome).toBe("ask");
    expect(codes).toContain("catheter-to-vein-ratio");
    expect(answer.chosen?.ratio.ratio).toBeLessThan(0.45);
  });

  test("a tourniquet is flagged and nothing is taken off the reading", () => {
    const { answer, codes } = plan("tourniquet");
    expect(codes).toContain("measured-without-tourniquet");
    expect(answer.chosen?.diameterMm).toBeGreaterThanOrEqual(3.3);
  });

  test("the barred arm gives way, however good its vein", () => {
    const { answer } = plan("barred-arm");
    expect(answer.chosen?.side).toBe("right");
    expect(answer.chosen?.vein).toBe("brachial");
  });

  test("no arm is chosen before the reasons against it were asked", () => {
    const { answer, codes } = plan("not-asked");
    expect(answer.chosen).toBeUndefined();
    expect(codes).toContain("arm-bars-not-asked");
  });

  test("the entry stays below the place where the vein ends", () => {
    expect(plan("no-vein-above").answer.chosen?.veinEntryCm).toBeLessThanOrEqual(10.5);
  });

  test("a vein wide enough only high up is tunnelled down", () => {
    const { answer, codes } = plan("tunnel");
    expect(answer.chosen?.tunnel).toBeDefined();
    expect(codes).toContain("tunnel-needed");
  });

  test("the true width at the vein beats the French on the label", () => {
    // 2.0 mm in 4.2 mm is 47.6 %, where 5 Fr by its label would be 39.7 % and met
    const { answer, codes } = plan("tapered");
    expect(answer.chosen?.ratio.ratio).toBeCloseTo(2 / 4.2, 3);
    expect(codes).toContain("catheter-to-vein-ratio");
  });

  test("where nothing fits the rule is named and five offers follow in order", () => {
    const { answer } = plan("nothing-fits");
    expect(answer.emptiedBy).toBe("catheter-to-vein-ratio");
    expect(answer.offers.map(offerSentence)).toHaveLength(answer.offers.length);
    expect(answer.offers.at(-1)?.kind).toBe("another kind of device");
  });

  test("tapes that differ by 4.5 cm stop the trim", () => {
    const { trim, codes, standing } = plan("two-tapes");
    expect(codes).toContain("lengths-disagree");
    expect(trim).toBeUndefined();
    expect(standing).toBe(3);
  });

  test("a newborn is held to the newborn's row and told that adult evidence is borrowed", () => {
    const { answer } = plan("newborn");
    expect(answer.findings.map(({ code }) => code)).toContain("adult-ratio-borrowed");
    const ratio = answer.chosen?.findings.find(({ code }) => code === "catheter-to-vein-ratio");
    expect(ratio?.policy).toContain("ratio.limit-newborn");
    expect(Number(ratio?.values["limitPercent"])).toBeCloseTo(100 / 3, 10);
  });

  test("every finding of every practice patient can be said, in 15 words or fewer", () => {
    for (const { id, planCase } of practicePatients) {
      const reading = readCase(planCase, demoShelf);
      if (reading.kind === "faults") throw new Error(`${id}: ${JSON.stringify(reading.faults)}`);
      const result = bedsidePlan(reading.input, policy);
      const findings = [
        ...result.answer.findings,
        ...(result.answer.chosen?.findings ?? []),
        ...(result.length?.findings ?? []),
        ...result.ceiling.findings,
      ];
      for (const finding of findings) {
        for (const sentence of sayFinding(finding).split(/(?<=[.?])\s/)) {
          expect(sentence.split(/ +/).length, `${id}: ${sentence}`).toBeLessThanOrEqual(15);
          expect(sentence).not.toMatch(/\b(safe|approved|recommended|pull to|undefined|NaN)\b/i);
        }
      }
    }
  });
});

describe("with any one field missing", () => {
  const needed = ["patient.name", "patient.identifier", "patient.age", "patient.weightKg", "need.lumens"];

  for (const { id, planCase } of practicePatients) {
    test(`"${id}" yields no size and site that needed it`, () => {
      for (const path of needed) {
        const copy = structuredClone(planCase) as unknown as Record<string, Record<string, unknown>>;
        const [group, field] = path.split(".") as [string, string];
        delete (copy[group] as Record<string, unknown>)[field];
        const reading = readCase(copy, demoShelf);
        if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
        expect(bedsidePlan(reading.input, policy).answer.chosen, path).toBeUndefined();
      }
      for (const field of ["armLengthCm", "bars", "surveys"]) {
        const copy = structuredClone(planCase) as unknown as {
          arms: Record<string, Record<string, unknown> | undefined>;
        };
        for (const side of ["right", "left"]) delete copy.arms[side]?.[field];
        const reading = readCase(copy, demoShelf);
        if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
        expect(bedsidePlan(reading.input, policy).answer.chosen, field).toBeUndefined();
      }
      for (const field of ["diameterMm", "depthMm"]) {
        const copy = structuredClone(planCase) as {
          arms: Record<string, { surveys?: { stations: Record<string, unknown>[] }[] } | undefined>;
        };
        for (const arm of Object.values(copy.arms))
          for (const survey of arm?.surveys ?? []) for (const station of survey.stations) delete station[field];
        const reading = readCase(copy, demoShelf);
        if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
        expect(bedsidePlan(reading.input, policy).answer.chosen, field).toBeUndefined();
      }
    });
  }
});
