import * as z from "zod/mini";
import { FLUIDS } from "../core/flow/index.ts";
import { between } from "./form.ts";

const size = { french: z.optional(between(0.5, 12)), outsideDiameterMm: z.optional(between(0.1, 5)) };

/** VEIN.json: one catheter in one vein. The size is in French or in millimetres, one of them. */
export const veinFile = z.strictObject({
  diameterMm: between(0.1, 30),
  sdMm: z.optional(between(0, 5)),
  ...size,
  /** 0 in the middle, 1 leaning on the wall; both are always answered. */
  offset: z.optional(between(0, 1)),
  /** Flow of the open vein, for the correction of blood that thins with shear. */
  openFlowMlPerMinute: z.optional(between(0.1, 2000)),
  /** Short over long axis of an oval vein; its long axis is `diameterMm`. */
  axisRatio: z.optional(between(0.2, 1)),
  /** Other catheters in the same vein, by the place of their middle from the vein's, mm. */
  others: z.optional(
    z.array(z.strictObject({ ...size, xMm: between(-15, 15), yMm: between(-15, 15) })).check(z.maxLength(5)),
  ),
});

/** LUMEN.json: one lumen of one catheter, a fluid and what drives it. */
export const lumenFile = z.strictObject({
  ...size,
  lumens: z.int().check(z.gte(1), z.lte(6)),
  wallMm: z.optional(between(0, 3)),
  septumMm: z.optional(between(0, 3)),
  lengthCm: between(1, 150),
  fluid: z.enum(FLUIDS),
  celsius: z.optional(between(0, 45)),
  /** Height of the bag's level over the tip. */
  headCm: z.optional(between(0, 300)),
  pumpLimitMmHg: z.optional(between(0, 2000)),
  rateMlPerHour: z.optional(between(0, 10_000)),
  /** The label's priming volume and the length it is for; `lengthCm` is then the length after the cut. */
  label: z.optional(z.strictObject({ volumeMl: between(0.01, 10), lengthCm: between(1, 150) })),
  /** A syringe on the blocked line: bore of its barrel and the thumb's force. */
  syringe: z.optional(z.strictObject({ boreMm: between(1, 40), forceN: between(0, 300) })),
});

/** MIXING.json: one infusion into one flow of blood. */
export const mixingFile = z.strictObject({
  osmolarity: between(0, 6000),
  rateMlPerHour: between(0, 10_000),
  bloodFlowMlPerMinute: between(0, 10_000),
  haematocrit: z.optional(between(0, 0.8)),
  limit: z.optional(between(200, 3000)),
  titratableAcidity: z.optional(between(-500, 500)),
  bufferValue: z.optional(between(1, 100)),
});

export type VeinFile = z.infer<typeof veinFile>;
export type LumenFile = z.infer<typeof lumenFile>;
export type MixingFile = z.infer<typeof mixingFile>;

export const flowJsonSchemas: Readonly<Record<"flow" | "lumen-flow" | "mixing", () => unknown>> = {
  flow: () => z.toJSONSchema(veinFile),
  "lumen-flow": () => z.toJSONSchema(lumenFile),
  mixing: () => z.toJSONSchema(mixingFile),
};
