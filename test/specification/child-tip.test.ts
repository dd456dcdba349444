import { describe, expect, test } from "vitest";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre } from "../../src/core/quantity/index.ts";
import { judgeOutside, type OutsideQuestion } from "../../src/core/tip/index.ts";
import { outsideSentence } from "../../src/language/index.ts";
import { defaultPolicyTable, releasePolicyFrom, tipPolicyFrom } from "../../src/policy/index.ts";

// Hirschl 2020, Pediatr Surg Int (584 children, CT): the junction lies so many vertebral units below the carina. By hand
// for a child of three years, 1.27 units of 1.6 cm: 2.032 cm. 2.1 cm at the film and 2 cm out: at most 0.1 cm below,
// 1.932 cm short.

const policy = tipPolicyFrom(defaultPolicyTable);
const steps = releasePolicyFrom(defaultPolicyTable);
const child = (more: Partial<OutsideQuestion> = {}): OutsideQuestion => ({
  ageYears: 3,
  depthAtFilmCm: centimetre(2.1),
  outsideAtFilmCm: centimetre(2),
  outsideNowCm: centimetre(4),
  symptoms: missing("not asked"),
  bloodReturn: missing("not asked"),
  unitCm: 1.6,
  ...more,
});

describe("given a child whose line came out, the tape says", () => {
  test("how deep the tip lies at most and how far short that is, and names no part of a cava nobody measured", () => {
    const answer = judgeOutside(child(), policy, steps);
    expect(answer.estimate?.depthAtMostCm).toBeCloseTo(0.1, 9);
    expect(answer.estimate?.aboveTargetCm).toBeCloseTo(1.932, 9);
    expect(answer.estimate?.zone).toBeUndefined();
    const said = outsideSentence(answer).replaceAll("\u202f", " ");
    expect(said).toMatch(/^Tip at most 0\.1 cm below the carina\. .* short of the junction, by series\. Estimate, not/);
    expect(said).not.toMatch(/undefined|cava:/);
  });
  test("nothing while the film shows no vertebral unit: an adult's is not taken for it", () => {
    expect(judgeOutside(child({ unitCm: undefined }), policy, steps).estimate).toBeUndefined();
  });
  test("and an adult's answer stays on the adult series", () => {
    const adult = (unitCm: number | undefined) => judgeOutside(child({ ageYears: 40, unitCm }), policy, steps).estimate;
    expect(adult(1.6)).toEqual(adult(undefined));
  });
});
