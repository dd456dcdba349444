import { expect, test } from "vitest";
import { demoShelf, practicePatients } from "../practice/index.ts";
import { caseFromDraft, draftFromCase, readCase } from "./index.ts";

test("every practice patient survives the trip into typed fields and back", () => {
  for (const { id, planCase } of practicePatients) {
    const direct = readCase(planCase, demoShelf);
    const typed = readCase(caseFromDraft(draftFromCase(planCase)).json, demoShelf);
    if (direct.kind === "faults" || typed.kind === "faults")
      throw new Error(`${id}: ${JSON.stringify([direct, typed])}`);
    expect(typed.input.patient, id).toEqual(direct.input.patient);
    expect(typed.input.need, id).toEqual(direct.input.need);
    expect(typed.input.length, id).toEqual(direct.input.length);
    expect(typed.input.shelf, id).toEqual(direct.input.shelf);
    for (const side of ["right", "left"] as const) {
      expect(typed.input.arms[side].armLengthCm, id).toEqual(direct.input.arms[side].armLengthCm);
      expect(typed.input.arms[side].bars, id).toEqual(direct.input.arms[side].bars);
      const readings = (input: typeof direct.input) =>
        input.arms[side].surveys.map((survey) =>
          survey.stations.map(({ atCm, diameterMm, depthMm, veinPresent }) => [
            atCm,
            veinPresent && diameterMm,
            veinPresent && depthMm,
          ]),
        );
      expect(readings(typed.input), id).toEqual(readings(direct.input));
    }
  }
});

test("a weight without its unit is no weight, and an age without its unit is no age", () => {
  const draft = draftFromCase(practicePatients[0]?.planCase as never);
  const reading = readCase(
    caseFromDraft({ ...draft, "patient.weightUnit": "", "patient.age.unit": "" }).json,
    demoShelf,
  );
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  expect(reading.input.patient.weightKg).toEqual({ missing: "not asked" });
  expect(reading.input.patient.age).toEqual({ missing: "not asked" });
});

test("a fault below an emptied row is shown at the field it was typed in", () => {
  const draft = draftFromCase(practicePatients[0]?.planCase as never);
  const { json, typedPath } = caseFromDraft({
    ...draft,
    "arms.right.surveys.0.stations.0.atCm": "",
    "arms.right.surveys.0.stations.2.diameterMm": "99",
  });
  const reading = readCase(json, demoShelf);
  if (reading.kind !== "faults") throw new Error("no fault found");
  expect(reading.faults.map(({ path }) => typedPath(path))).toEqual(["arms.right.surveys.0.stations.2.diameterMm"]);
});
