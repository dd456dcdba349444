import * as z from "zod/mini";
import { CULTURE_STATES, FACTS } from "../core/device-choice/index.ts";
import { TISSUE_CLASSES } from "../core/infusate/index.ts";
import { CREATININE_UNITS, RENAL_REPLACEMENTS, SEXES } from "../core/kidney/index.ts";
import { age, between, civilDate, flag, maybe, text } from "./form.ts";

/** What a compounded bag holds; its osmolarity is computed from it. */
const bag = z.strictObject({
  volumeMl: between(1, 10_000),
  glucoseG: z.optional(between(0, 3000)),
  aminoAcidG: z.optional(between(0, 1000)),
  monovalentSaltsMmol: z.optional(between(0, 3000)),
  otherIonsMmol: z.optional(between(0, 3000)),
  lipidG: z.optional(between(0, 1000)),
  /** From the emulsion's label. */
  lipidMosmPerG: z.optional(between(0, 5)),
});

/** NEED.json, field by field: what the ward asks for. A drug is a name of the list in force, or described whole. */
const infusate = z.union([
  text,
  z.strictObject({
    name: text,
    osmolarity: maybe(between(0, 5000)),
    ph: maybe(between(0, 14)),
    tissueClass: maybe(z.enum(TISSUE_CLASSES)),
    againstCancer: z.optional(flag),
    nutrition: z.optional(flag),
    bag: z.optional(bag),
  }),
]);

const creatinine = z.strictObject({ value: between(0.05, 3000), unit: z.enum(CREATININE_UNITS), on: civilDate });
const days = z.strictObject({ least: between(0, 400), likely: between(0, 400), most: between(0, 400) });

export const referralFile = z.strictObject({
  patient: z.strictObject({
    age: maybe(age),
    bornPreterm: maybe(flag),
    correctedAgeDays: maybe(between(-150, 1500)),
    sex: maybe(z.enum(SEXES)),
    heightCm: maybe(between(20, 250)),
  }),
  days: maybe(z.union([between(0, 400), days])),
  infusates: maybe(z.array(infusate).check(z.maxLength(40))),
  kidney: z.optional(
    z.strictObject({
      replacement: maybe(z.enum(RENAL_REPLACEMENTS)),
      creatinines: z.optional(z.array(creatinine).check(z.maxLength(50))),
      filtration: maybe(between(0, 250)),
      filtrationOn: maybe(civilDate),
    }),
  ),
  bleeding: z.optional(
    z.strictObject({ inr: maybe(between(0.5, 20)), platelets: maybe(between(0, 2000)), clopidogrel: maybe(flag) }),
  ),
  culture: z.optional(
    z.strictObject({ state: maybe(z.enum(CULTURE_STATES)), hoursSinceNegative: maybe(between(0, 2000)) }),
  ),
  sampleEveryHours: maybe(between(0, 168)),
  admissionsAYear: maybe(between(0, 100)),
  criticallyIll: maybe(z.enum(FACTS.criticallyIll)),
  setting: maybe(z.enum(FACTS.setting)),
  cancer: maybe(z.enum(FACTS.cancer)),
  urgent: maybe(z.enum(FACTS.urgent)),
  cycles: maybe(z.enum(FACTS.cycles)),
  pregnancy: maybe(z.enum(FACTS.pregnancy)),
  armBars: maybe(z.enum(FACTS.armBars)),
  difficultVeins: maybe(z.enum(FACTS.difficultVeins)),
  carer: maybe(z.enum(FACTS.carer)),
  oral: maybe(z.enum(FACTS.oral)),
  endOfLife: maybe(z.enum(FACTS.endOfLife)),
  purpose: maybe(z.enum(FACTS.purpose)),
  /** Where the rules cannot decide: the team has agreed to a PICC. */
  teamAgreed: maybe(z.enum(["yes", "no"])),
});

export type ReferralFile = z.infer<typeof referralFile>;

/** The JSON Schema of NEED.json, for `schema device` and the reference page. */
export const referralJsonSchema = (): unknown => z.toJSONSchema(referralFile);
