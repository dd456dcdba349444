import fc from "fast-check";
import type { Station, Vein } from "../../src/core/arm/index.ts";
import type { StockCatheter } from "../../src/core/catheter/index.ts";
import type { ArmInput, PlanInput } from "../../src/core/line-plan/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import {
  centimetre,
  french,
  kilogram,
  millilitrePerHour,
  millilitrePerSecond,
  millimetre,
} from "../../src/core/quantity/index.ts";

/** Generated adults with everything known: places and sizes vary, so that any rule may be the one that decides. */
const absent = missing("not measured");

const tenth = (least: number, most: number) =>
  fc.integer({ min: least * 10, max: most * 10 }).map((tenths) => tenths / 10);

const station: fc.Arbitrary<Station> = fc.record({
  atCm: tenth(1, 24).map(centimetre),
  veinPresent: fc.boolean().chain((rare) => (rare ? fc.boolean() : fc.constant(true))),
  diameterMm: tenth(1.5, 7).map(millimetre),
  depthMm: tenth(2, 35).map(millimetre),
  artery: fc.constantFrom("none" as const, "none" as const, "none" as const, "beside" as const, "in front" as const),
  nerveBeside: fc.constantFrom(false, false, false, true),
  compressible: fc.constantFrom(true, true, true, false),
  thrombus: fc.integer({ min: 0, max: 24 }).map((rare) => rare === 0),
  tourniquetOn: fc.constantFrom(false, false, false, true),
  repeats: fc.integer({ min: 1, max: 4 }),
});

const survey = (vein: Vein) =>
  fc
    .uniqueArray(station, { minLength: 0, maxLength: 4, selector: ({ atCm }) => atCm })
    .map((stations) => ({ vein, stations }));

const arm: fc.Arbitrary<ArmInput> = fc.record({
  armLengthCm: tenth(14, 26).map(centimetre),
  bars: fc.constantFrom([], [], [], ["weakness"], ["past-thrombosis"], ["dialysis-access"]),
  surveys: fc.tuple(survey("basilic"), survey("brachial"), survey("cephalic")).map((surveys) => [...surveys]),
  pastLines: fc.constant([]),
});

const shelf: readonly StockCatheter[] = [
  { size: 3, lumens: 1, flow: 300 },
  { size: 4, lumens: 1, flow: 900 },
  { size: 4, lumens: 2, flow: 400 },
  { size: 5, lumens: 2, flow: 900 },
  { size: 6, lumens: 3, flow: 800 },
].map(({ size, lumens, flow }) => ({
  id: `${size}-${lumens}`,
  name: `${size} Fr, ${lumens} lumen`,
  nominalFrench: french(size),
  outsideDiameterMm: millimetre(size / 3),
  lumens,
  lengthCm: centimetre(60),
  lumenVolumesMl: absent,
  flowLabelMlPerHour: millilitrePerHour(flow),
  bloodByLabel: true,
  contrastLabelMlPerSecond: millilitrePerSecond(0),
  material: "polyurethane",
}));

const sideLengths = {
  tapeFromCm: absent,
  surfaceTapeCm: absent,
  secondTapeCm: absent,
  lastGoodLengthCm: absent,
  lastGoodEntryCm: absent,
};

export const planCase: fc.Arbitrary<PlanInput> = fc
  .record({
    right: arm,
    left: arm,
    lumens: fc.integer({ min: 1, max: 3 }),
    flow: fc.constantFrom(0, 350, 850),
    weight: fc.integer({ min: 8, max: 110 }),
    dominantArm: fc.constantFrom("right" as const, "left" as const),
  })
  .map(({ right, left, lumens, flow, weight, dominantArm }) => ({
    patient: {
      name: "PRACTICE, Person",
      identifier: "0001",
      bornOn: absent,
      age: { value: 50, unit: "years" as const },
      bornPreterm: absent,
      correctedAgeDays: absent,
      weightKg: kilogram(weight),
      heightCm: centimetre(170),
      dominantArm,
    },
    need: { lumens, flowMlPerHour: millilitrePerHour(flow), blood: false, contrastMlPerSecond: millilitrePerSecond(0) },
    arms: { right, left },
    shelf,
    length: {
      sides: { right: sideLengths, left: sideLengths },
      clavicleCm: absent,
      sternumCm: absent,
      entryToAxillaryPointCm: absent,
      creaseBelowEpicondyleCm: absent,
      outsideCm: absent,
    },
    anaesthetic: { concentrationPercent: absent, withAdrenaline: absent },
    overrides: [],
  }));
