import * as z from "zod/mini";
import { AGE_UNITS } from "../core/age/index.ts";
import { MISSING_KINDS } from "../core/missing/index.ts";

/** The forms every schema is made of: a value or its absence, a number in a range, a short text. */
const absence = z.strictObject({ missing: z.enum(MISSING_KINDS) });
export const maybe = <Schema extends z.ZodMiniType>(schema: Schema) => z.optional(z.union([schema, absence]));
export const between = (least: number, most: number) => z.number().check(z.gte(least), z.lte(most));
export const text = z.string().check(z.maxLength(120));
export const flag = z.boolean();
export const civilDate = z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/));
export const age = z.strictObject({ value: between(0, 1500), unit: z.enum(AGE_UNITS) });
