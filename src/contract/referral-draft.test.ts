import { describe, expect, test } from "vitest";
import { starterInfusates } from "../policy/index.ts";
import { readReferral } from "./read-referral.ts";
import { referralFromDraft } from "./referral-draft.ts";

const strengths = { fracture: "strong", "dialysis-access": "bar" };
const of = (draft: Record<string, string>) => referralFromDraft(draft, strengths, "2026-11-25");

describe("a referral typed on the plan page", () => {
  test("is nothing until something of it is typed", () => {
    expect(of({ "patient.age.value": "60", "patient.age.unit": "years" })).toBeUndefined();
  });

  test("takes age, height and the arms from the plan's own fields", () => {
    const draft = of({
      "patient.age.value": "60",
      "patient.age.unit": "years",
      "patient.heightCm": "170",
      "referral.days.likely": "12",
      "referral.days.most": "16",
      "referral.infusates.0": "ceftriaxone",
      "referral.infusates.2": "vancomycin",
      "referral.kidney.creatinines.0.value": "1,2",
      "referral.kidney.creatinines.0.unit": "mg/dL",
      "referral.sex": "female",
      "arms.right.barsAsked": "yes",
      "arms.right.bar.dialysis-access": "yes",
      "arms.left.barsAsked": "yes",
      "arms.left.bar.fracture": "yes",
    });
    expect(draft?.json).toEqual({
      patient: { age: { value: "60", unit: "years" }, heightCm: "170", sex: "female" },
      days: { least: "12", likely: "12", most: "16" },
      infusates: ["ceftriaxone", "vancomycin"],
      kidney: { creatinines: [{ on: "2026-11-25", value: "1,2", unit: "mg/dL" }] },
      armBars: "one arm",
    });
    const reading = readReferral(draft?.json, starterInfusates);
    expect(reading.kind).toBe("referral");
    expect(draft?.typedPath("infusates.1")).toBe("referral.infusates.2");
    expect(draft?.typedPath("patient.heightCm")).toBe("patient.heightCm");
  });

  test("an arm that was not asked leaves the arms open", () => {
    const draft = of({ "referral.days.likely": "12", "arms.right.barsAsked": "yes" });
    expect(draft?.json).not.toHaveProperty("armBars");
  });
});
