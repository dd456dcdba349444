import { describe, expect, test } from "vitest";
import { lumenAnswer, mixingAnswer, shelfCarries, veinAnswer } from "../../src/core/flow/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre, millilitrePerHour, millimetre } from "../../src/core/quantity/index.ts";
import { defaultPolicyTable, flowAssumptionsFrom, tableWithValues, type PolicyTable } from "../../src/policy/index.ts";
import { demoShelf } from "../../src/practice/index.ts";
import { isFlowRow } from "./need-keys.ts";

/** Every assumption of the flow model is moved by a hundredth, and some answer must move with it. */
const answers = (table: PolicyTable): string => {
  const assumed = flowAssumptionsFrom(table);
  const vein = { outsideDiameterMm: millimetre(4 / 3), diameterMm: millimetre(4), sdMm: millimetre(0.3), offset: 0.5 };
  const lumen = {
    outsideDiameterMm: millimetre(5 / 3),
    lumens: 2,
    lengthCm: centimetre(45),
    fluid: "water",
    headCm: 100,
  } as const;
  const mixing = { osmolarity: 1700, rateMlPerHour: 100, bloodFlowMlPerMinute: 95, limit: 400 };
  const unlabelled = demoShelf.map((catheter) => ({ ...catheter, flowLabelMlPerHour: missing("not known") }));
  const carries = shelfCarries(unlabelled, millilitrePerHour(100), assumed);
  return JSON.stringify([
    veinAnswer(vein, assumed),
    lumenAnswer(lumen, assumed),
    mixingAnswer(mixing, assumed),
    carries,
  ]);
};

describe("every assumption of the flow model matters", () => {
  const before = answers(defaultPolicyTable);
  for (const [key, row] of Object.entries(defaultPolicyTable)) {
    if (!isFlowRow(key)) continue;
    test(key, () => {
      const moved = tableWithValues(defaultPolicyTable, { [key]: (row.value as number) * 1.01 });
      expect(answers(moved)).not.toBe(before);
    });
  }
});
