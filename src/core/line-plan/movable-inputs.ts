import { SIDES, type Side, type Station } from "../arm/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { centimetre, kilogram, millilitrePerHour, millimetre } from "../quantity/index.ts";
import type { PlanInput } from "./plan-input.ts";

/** A number of the entry that can be moved to see when the answer turns. */
export interface MovableNumber {
  readonly kind: "number";
  readonly path: string;
  readonly unit: string;
  readonly value: number;
  /** The plausible range searched, and the finest step a person could read. */
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly write: (value: number) => PlanInput;
}

/** An answer of the entry with a few other answers it could have had. */
export interface MovableAnswer {
  readonly kind: "answer";
  readonly path: string;
  readonly others: readonly { readonly value: string; readonly write: () => PlanInput }[];
}

export type MovableInput = MovableNumber | MovableAnswer;

/** Every input the plan reads and that is known, in the order a person would ask about it. */
export function movableInputs(input: PlanInput): readonly MovableInput[] {
  return [...needInputs(input), ...SIDES.flatMap((side) => armInputs(input, side)), ...patientInputs(input)];
}

function needInputs(input: PlanInput): MovableInput[] {
  const { need } = input;
  const withNeed = (change: Partial<PlanInput["need"]>): PlanInput => ({ ...input, need: { ...need, ...change } });
  return [
    ...number(need.lumens, { path: "need.lumens", unit: "lumens", least: 1, most: 4, step: 1 }, (lumens) =>
      withNeed({ lumens }),
    ),
    ...number(
      need.flowMlPerHour,
      { path: "need.flowMlPerHour", unit: "mL/h", least: 0, most: 2000, step: 10 },
      (flow) => withNeed({ flowMlPerHour: millilitrePerHour(flow) }),
    ),
    ...yesOrNo(need.blood, "need.blood", (blood) => withNeed({ blood })),
  ];
}

function patientInputs(input: PlanInput): MovableInput[] {
  const { patient } = input;
  const withPatient = (change: Partial<PlanInput["patient"]>): PlanInput => ({
    ...input,
    patient: { ...patient, ...change },
  });
  const inputs = number(
    patient.weightKg,
    { path: "patient.weightKg", unit: "kg", least: 0.5, most: 250, step: 0.5 },
    (weight) => withPatient({ weightKg: kilogram(weight) }),
  );
  const { age } = patient;
  if (!isMissing(age)) {
    const most = age.unit === "years" ? 110 : age.unit === "months" ? 240 : 400;
    inputs.push(
      ...number(age.value, { path: "patient.age", unit: age.unit, least: 0, most, step: 1 }, (value) =>
        withPatient({ age: { value, unit: age.unit } }),
      ),
    );
  }
  if (!isMissing(patient.dominantArm)) {
    const other = patient.dominantArm === "right" ? "left" : "right";
    inputs.push({
      kind: "answer",
      path: "patient.dominantArm",
      others: [{ value: other, write: () => withPatient({ dominantArm: other }) }],
    });
  }
  return inputs;
}

function armInputs(input: PlanInput, side: Side): MovableInput[] {
  const arm = input.arms[side];
  const withArm = (change: Partial<PlanInput["arms"][Side]>): PlanInput => ({
    ...input,
    arms: { ...input.arms, [side]: { ...arm, ...change } },
  });
  const inputs = number(
    arm.armLengthCm,
    { path: `arms.${side}.armLengthCm`, unit: "cm", least: 4, most: 40, step: 0.1 },
    (length) => withArm({ armLengthCm: centimetre(length) }),
  );
  if (!isMissing(arm.bars) && arm.surveys.length > 0) {
    const barred = () => withArm({ bars: ["a bar found later"] });
    inputs.push({ kind: "answer", path: `arms.${side}.bars`, others: [{ value: "barred", write: barred }] });
  }
  for (const [veinIndex, survey] of arm.surveys.entries()) {
    for (const [stationIndex, station] of survey.stations.entries()) {
      const write = (change: Partial<Station>): PlanInput => {
        const stations = survey.stations.with(stationIndex, { ...station, ...change });
        return withArm({ surveys: arm.surveys.with(veinIndex, { ...survey, stations }) });
      };
      inputs.push(...stationInputs(station, `arms.${side}.surveys.${veinIndex}.stations.${stationIndex}`, write));
    }
  }
  return inputs;
}

function stationInputs(station: Station, path: string, write: (change: Partial<Station>) => PlanInput): MovableInput[] {
  if (!station.veinPresent) return [];
  return [
    ...number(
      station.diameterMm,
      { path: `${path}.diameterMm`, unit: "mm", least: 0.5, most: 10, step: 0.1 },
      (diameter) => write({ diameterMm: millimetre(diameter) }),
    ),
    ...number(station.depthMm, { path: `${path}.depthMm`, unit: "mm", least: 1, most: 45, step: 0.5 }, (depth) =>
      write({ depthMm: millimetre(depth) }),
    ),
    ...yesOrNo(station.compressible, `${path}.compressible`, (compressible) => write({ compressible })),
    ...yesOrNo(station.thrombus, `${path}.thrombus`, (thrombus) => write({ thrombus })),
    ...yesOrNo(station.tourniquetOn, `${path}.tourniquetOn`, (tourniquetOn) => write({ tourniquetOn })),
  ];
}

function number(
  value: Maybe<number>,
  about: Pick<MovableNumber, "path" | "unit" | "least" | "most" | "step">,
  write: (value: number) => PlanInput,
): MovableInput[] {
  return isMissing(value) ? [] : [{ kind: "number", ...about, value, write }];
}

function yesOrNo(value: Maybe<boolean>, path: string, write: (value: boolean) => PlanInput): MovableInput[] {
  if (isMissing(value)) return [];
  return [{ kind: "answer", path, others: [{ value: value ? "no" : "yes", write: () => write(!value) }] }];
}
