import * as z from "zod/mini";
import { ARTERY_PLACES, VEINS } from "../core/arm/index.ts";
import { age, between, civilDate, flag, maybe, text } from "./form.ts";

/** CASE.json, field by field. Ranges are what a body can be, not what a policy allows; units stand in the names. */
const side = z.enum(["right", "left"]);
const vein = z.enum(VEINS);

const station = z.strictObject({
  atCm: between(0, 60),
  veinPresent: z.optional(flag),
  diameterMm: maybe(between(0.1, 20)),
  depthMm: maybe(between(0, 80)),
  artery: maybe(z.enum(ARTERY_PLACES)),
  nerveBeside: maybe(flag),
  compressible: maybe(flag),
  thrombus: maybe(flag),
  tourniquetOn: maybe(flag),
  repeats: z.optional(z.int().check(z.gte(1), z.lte(50))),
  measuredAt: z.optional(text),
});

const arm = z.strictObject({
  armLengthCm: maybe(between(3, 60)),
  bars: maybe(z.array(text).check(z.maxLength(20))),
  surveys: z.optional(
    z.array(z.strictObject({ vein, stations: z.array(station).check(z.maxLength(60)) })).check(z.maxLength(8)),
  ),
  pastLines: z.optional(
    z
      .array(z.strictObject({ vein, year: z.int().check(z.gte(1950), z.lte(2200)), atCm: maybe(between(0, 60)) }))
      .check(z.maxLength(40)),
  ),
});

const catheter = z.strictObject({
  id: text,
  name: text,
  nominalFrench: between(0.5, 12),
  outsideDiameterMm: maybe(between(0.2, 5)),
  lumens: z.int().check(z.gte(1), z.lte(5)),
  lengthCm: between(5, 120),
  lumenVolumesMl: maybe(z.array(between(0.01, 5)).check(z.maxLength(5))),
  flowLabelMlPerHour: maybe(between(0, 100_000)),
  bloodByLabel: maybe(flag),
  contrastLabelMlPerSecond: maybe(between(0, 20)),
  material: maybe(text),
});

const sideLength = z.strictObject({
  tapeFromCm: maybe(between(0, 60)),
  surfaceTapeCm: maybe(between(2, 90)),
  secondTapeCm: maybe(between(2, 90)),
  lastGoodLengthCm: maybe(between(2, 90)),
  lastGoodEntryCm: maybe(between(0, 60)),
});

export const planCase = z.strictObject({
  patient: z.strictObject({
    name: maybe(text),
    identifier: maybe(text),
    bornOn: maybe(civilDate),
    age: maybe(age),
    bornPreterm: maybe(flag),
    correctedAgeDays: maybe(between(-150, 1500)),
    weightKg: maybe(between(0.3, 400)),
    weightLb: maybe(between(0.6, 900)),
    heightCm: maybe(between(20, 250)),
    dominantArm: maybe(side),
  }),
  need: z.strictObject({
    lumens: maybe(z.int().check(z.gte(1), z.lte(9))),
    flowMlPerHour: maybe(between(0, 100_000)),
    blood: maybe(flag),
    contrastMlPerSecond: maybe(between(0, 20)),
  }),
  arms: z.strictObject({ right: z.optional(arm), left: z.optional(arm) }),
  shelf: z.optional(z.array(catheter).check(z.maxLength(300))),
  length: z.optional(
    z.strictObject({
      sides: z.optional(z.strictObject({ right: z.optional(sideLength), left: z.optional(sideLength) })),
      clavicleCm: maybe(between(3, 40)),
      sternumCm: maybe(between(3, 50)),
      entryToAxillaryPointCm: maybe(between(0, 60)),
      creaseBelowEpicondyleCm: maybe(between(-10, 10)),
      outsideCm: maybe(between(0, 30)),
    }),
  ),
  anaesthetic: z.optional(
    z.strictObject({ concentrationPercent: maybe(between(0.1, 10)), withAdrenaline: maybe(flag) }),
  ),
  overrides: z.optional(
    z.array(z.strictObject({ code: text, side, reason: text, names: z.tuple([text, text]) })).check(z.maxLength(20)),
  ),
  fixedPlace: z.optional(
    z.strictObject({
      side,
      vein,
      veinEntryCm: between(0, 60),
      angleDegree: z.optional(between(10, 80)),
      catheterId: z.optional(text),
    }),
  ),
});

export type PlanCase = z.infer<typeof planCase>;

/** The JSON Schema of CASE.json, for `schema plan` and the reference page. */
export const planCaseJsonSchema = (): unknown => z.toJSONSchema(planCase);
