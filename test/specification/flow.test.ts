import { describe, expect, test } from "vitest";
import { lumenAnswer, mixingAnswer, veinAnswer } from "../../src/core/flow/index.ts";
import { centimetre, french, frenchToMillimetre, millimetre } from "../../src/core/quantity/index.ts";
import { flowRefusal, veinFlowLines } from "../../src/language/index.ts";
import { defaultPolicyTable, flowAssumptionsFrom } from "../../src/policy/index.ts";

/** What the flow page says, as a trainee reads it. The numbers are checked in reference/; here the sentences are. */
const assumed = flowAssumptionsFrom(defaultPolicyTable);
const vein = (fr: number, mm: number, sd = 0) =>
  veinAnswer(
    { outsideDiameterMm: frenchToMillimetre(french(fr)), diameterMm: millimetre(mm), sdMm: millimetre(sd), offset: 0 },
    assumed,
  );
const lines = (fr: number, mm: number, sd = 0) => {
  const answer = vein(fr, mm, sd);
  return "kind" in answer ? [flowRefusal[answer.reason]] : veinFlowLines(answer);
};

describe("why 45 % is not half", () => {
  test("4 Fr in 2.963 mm is 45 % of the width, a fifth of the area, and leaves 16 to 37 % of the flow", () => {
    expect(lines(4, 4 / 3 / 0.45)[1]).toBe(
      "45\u202f% of the width is 20\u202f% of the area, and leaves 16\u202f% to 37\u202f% of the flow: blood sticks to both walls.",
    );
  });

  test("the pair is always said, and what the model is", () => {
    const said = lines(4, 4);
    expect(said[0]).toBe("Flow left: 27\u202f% in the middle, 57\u202f% leaning on the wall.");
    expect(said.at(-1)).toContain("it permits nothing");
  });

  test("one French more has its price in one sentence", () => {
    expect(lines(4, 4)).toContain("One French more: from 27\u202f% to 57\u202f% left, down to 19\u202f% to 42\u202f%.");
    expect(lines(5, 1.9)).toContain("One French more would fill the vein.");
  });

  test("a doubtful reading may hide a filled vein", () => {
    expect(lines(5, 2, 0.3)).toContain("By the doubt of the reading the catheter may fill the vein.");
  });

  test("a catheter as wide as the vein is refused in words", () => {
    expect(lines(6, 2)).toEqual(["The catheter fills the vein: nothing is left to compute. Choose a smaller one."]);
  });
});

describe("what a lumen carries", () => {
  const lumen = (more: Partial<Parameters<typeof lumenAnswer>[0]>) =>
    lumenAnswer(
      {
        outsideDiameterMm: frenchToMillimetre(french(4)),
        lumens: 1,
        lengthCm: centimetre(45),
        fluid: "water",
        headCm: 100,
        ...more,
      },
      assumed,
    );
  const perHour = (more: Partial<Parameters<typeof lumenAnswer>[0]>) => {
    const answer = lumen(more);
    return answer.kind === "lumen flow" ? answer.flow.flow * 60 : Number.NaN;
  };

  test("each lumen more, at the same size, carries much less", () => {
    expect(perHour({ lumens: 2 })).toBeLessThan(perHour({ lumens: 1 }) / 5);
    expect(perHour({ lumens: 3 })).toBeLessThan(perHour({ lumens: 2 }));
  });

  test("walls thicker than the bore, and a fluid nobody measured, are refused", () => {
    expect(lumen({ wallMm: 0.7 })).toMatchObject({ kind: "refused", reason: "walls thicker than the bore" });
    expect(lumen({ fluid: "lipid emulsion 20 %" })).toMatchObject({ kind: "not known" });
  });

  test("a bag no higher than the vein presses runs nothing, and never backwards", () => {
    expect(perHour({ headCm: 5 })).toBe(0);
  });
});

describe("what reaches the blood", () => {
  test("nutrition of 1,700 at 100 mL/h: 314 in the basilic vein's flow, and the wall sees up to 1,700", () => {
    const { mixed } = mixingAnswer({ osmolarity: 1700, rateMlPerHour: 100, bloodFlowMlPerMinute: 95 }, assumed);
    expect([mixed.wholeBlood, mixed.plasmaOnly, mixed.undiluted].map(Math.round)).toEqual([314, 331, 1700]);
  });

  test("without flow nothing mixes and nothing divides by zero", () => {
    const { mixed } = mixingAnswer({ osmolarity: 1700, rateMlPerHour: 100, bloodFlowMlPerMinute: 0 }, assumed);
    expect(mixed.wholeBlood).toBe(1700);
  });

  test("a limit below the blood's own can be met by no flow", () => {
    const question = { osmolarity: 1700, rateMlPerHour: 100, bloodFlowMlPerMinute: 95, limit: 280 };
    expect(mixingAnswer(question, assumed).neededFlow).toBe("none");
  });
});
