import type { Side } from "../core/arm/index.ts";
import type { StockCatheter } from "../core/catheter/index.ts";
import type { ArmInput, PlanInput } from "../core/line-plan/index.ts";
import { isMissing, missing } from "../core/missing/index.ts";
import { kilogram, poundToKilogram, pound } from "../core/quantity/index.ts";
import type { Finding } from "../core/reason/index.ts";
import type { Fault } from "./fault.ts";
import { acrossFields } from "./across-fields.ts";
import { planCase, type PlanCase } from "./plan-schema.ts";
import { parsedJson, readJson } from "./read-json.ts";

export type CaseReading =
  | { readonly kind: "case"; readonly input: PlanInput; readonly echoes: readonly Finding[] }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] };

const notAsked = missing("not asked");

/** Reads the text of a CASE.json; every fault of the file is reported at once. */
export function readCaseText(text: string, shelf: readonly StockCatheter[]): CaseReading {
  const parsed = parsedJson(text);
  return parsed.kind === "faults" ? parsed : readCase(parsed.json, shelf);
}

/** Turns a parsed case into checked input for the planner, or into the list of everything wrong with it. */
export function readCase(json: unknown, shelf: readonly StockCatheter[]): CaseReading {
  const reading = readJson(json, planCase, acrossFields);
  return reading.kind === "faults" ? reading : { kind: "case", ...inputFrom(reading.data, shelf) };
}

function inputFrom(
  data: PlanCase,
  shelf: readonly StockCatheter[],
): { readonly input: PlanInput; readonly echoes: readonly Finding[] } {
  const { weightLb, weightKg, ...patient } = data.patient;
  const inPounds = weightLb !== undefined && !isMissing(weightLb) ? weightLb : undefined;
  const echoes: Finding[] = [];
  if (inPounds !== undefined) {
    const values = { weightLb: inPounds, weightKg: poundToKilogram(pound(inPounds)) };
    echoes.push({
      code: "weight-converted",
      verdict: "met",
      level: "note",
      values,
      policy: [],
      path: "patient.weightLb",
    });
  }
  const absent = {
    name: notAsked,
    identifier: notAsked,
    bornOn: notAsked,
    age: notAsked,
    bornPreterm: notAsked,
    correctedAgeDays: notAsked,
    heightCm: notAsked,
    dominantArm: notAsked,
  };
  const noLengths = {
    tapeFromCm: notAsked,
    surfaceTapeCm: notAsked,
    secondTapeCm: notAsked,
    lastGoodLengthCm: notAsked,
    lastGoodEntryCm: notAsked,
  };
  // the schema has checked every value; brands carry no run-time meaning
  const input = {
    patient: {
      ...absent,
      ...patient,
      weightKg:
        inPounds === undefined ? (weightKg ?? weightLb ?? notAsked) : kilogram(poundToKilogram(pound(inPounds))),
    },
    need: { lumens: notAsked, flowMlPerHour: notAsked, blood: notAsked, contrastMlPerSecond: notAsked, ...data.need },
    arms: { right: armFrom(data, "right"), left: armFrom(data, "left") },
    shelf:
      data.shelf?.map((entry) => ({
        outsideDiameterMm: notAsked,
        lumenVolumesMl: notAsked,
        flowLabelMlPerHour: notAsked,
        bloodByLabel: notAsked,
        contrastLabelMlPerSecond: notAsked,
        material: notAsked,
        ...entry,
      })) ?? shelf,
    length: {
      clavicleCm: notAsked,
      sternumCm: notAsked,
      entryToAxillaryPointCm: notAsked,
      creaseBelowEpicondyleCm: notAsked,
      outsideCm: notAsked,
      ...data.length,
      sides: {
        right: { ...noLengths, ...data.length?.sides?.right },
        left: { ...noLengths, ...data.length?.sides?.left },
      },
    },
    anaesthetic: { concentrationPercent: notAsked, withAdrenaline: notAsked, ...data.anaesthetic },
    overrides: data.overrides ?? [],
    ...(data.fixedPlace ? { fixedPlace: data.fixedPlace } : {}),
  } as unknown as PlanInput;
  return { input, echoes };
}

function armFrom(data: PlanCase, side: Side): ArmInput {
  const arm = data.arms[side];
  const absent = {
    diameterMm: notAsked,
    depthMm: notAsked,
    artery: notAsked,
    nerveBeside: notAsked,
    compressible: notAsked,
    thrombus: notAsked,
    tourniquetOn: notAsked,
  };
  return {
    armLengthCm: arm?.armLengthCm ?? notAsked,
    bars: arm?.bars ?? notAsked,
    surveys: (arm?.surveys ?? []).map((survey) => ({
      vein: survey.vein,
      stations: survey.stations.map((station) => ({ ...absent, veinPresent: true, repeats: 1, ...station })),
    })),
    pastLines: (arm?.pastLines ?? []).map((line) => ({ atCm: notAsked, ...line })),
  } as unknown as ArmInput;
}
