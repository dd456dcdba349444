import * as z from "zod/mini";
import { POOL_FORMAT, type PoolFile } from "../audit/index.ts";
import { readJson, parsedJson, type Faults } from "./read-json.ts";

const words = z.string().check(z.minLength(1), z.maxLength(80));
const whole = z.number().check(z.int(), z.minimum(0), z.maximum(1e9));
const cell = z.nullable(whole);

const stratum = z.strictObject({
  stratum: words,
  events: z.array(cell),
  lineDays: z.array(whole),
  lines: z.array(cell),
  atRisk: z.array(z.array(cell)),
  ends: z.array(z.array(cell)),
});

const schema = z.strictObject({
  format: z.literal(POOL_FORMAT),
  service: words,
  measure: words,
  clock: words,
  splitBy: words,
  strataBy: words,
  periodDays: whole,
  widthDays: z.number().check(z.positive(), z.maximum(400)),
  smallestShown: whole,
  groups: z.array(words).check(z.minLength(1)),
  strata: z.array(stratum).check(z.minLength(1)),
});

/** Reads a pool file; a table whose rows do not fit its groups is told as such. */
export function readPoolText(text: string): { readonly kind: "pool"; readonly file: PoolFile } | Faults {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const reading = readJson(parsed.json, schema, ({ groups, strata }) =>
    strata.flatMap((one, at) =>
      Object.entries({
        events: [one.events],
        lineDays: [one.lineDays],
        lines: [one.lines],
        atRisk: one.atRisk,
        ends: one.ends,
      }).flatMap(([field, rows]) =>
        rows.some((row) => row.length !== groups.length) || one.atRisk.length !== one.ends.length
          ? [
              {
                path: `strata.${at}.${field}`,
                code: "contradicts" as const,
                found: `${rows.length} rows`,
                rule: `one number for each of ${groups.length} groups`,
              },
            ]
          : [],
      ),
    ),
  );
  return reading.kind === "faults" ? reading : { kind: "pool", file: reading.data };
}

export const poolJsonSchema = (): unknown => z.toJSONSchema(schema);
