import * as z from "zod/mini";
import { POOL_FORMAT, PRIVATE_STRATA, type PoolFile } from "../audit/index.ts";
import { shown, type Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
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

/** Reads a pool file; what its tables say against each other is told as such: a file of other hands is not believed. */
export function readPoolText(text: string): { readonly kind: "pool"; readonly file: PoolFile } | Faults {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const reading = readJson(parsed.json, schema, (file) => [
    ...hiddenSigns(file, ""),
    ...namesTwice(file),
    ...splitByPerson(file),
    ...shapeFaults(file),
    ...countFaults(file),
  ]);
  return reading.kind === "faults" ? reading : { kind: "pool", file: reading.data };
}

type Read = z.infer<typeof schema>;

const shapeFaults = ({ groups, strata }: Read): readonly Fault[] =>
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
  );

/** A group or a stratum that stands twice would be counted twice. */
function namesTwice({ groups, strata }: Read): readonly Fault[] {
  const lists = { groups, strata: strata.map(({ stratum: name }) => name) };
  return Object.entries(lists).flatMap(([field, names]) =>
    names.flatMap((name, at) =>
      names.indexOf(name) < at
        ? [{ path: `${field}.${at}`, code: "twice" as const, found: shown(name), rule: "each name once" }]
        : [],
    ),
  );
}

const splitByPerson = (file: Read): readonly Fault[] =>
  (["splitBy", "strataBy"] as const).flatMap((field) =>
    PRIVATE_STRATA.some((one) => one === file[field])
      ? [{ path: field, code: "not-in-list" as const, found: file[field], rule: "a split that names no person" }]
      : [],
  );

/** No more end than are at risk, no more are at risk than were placed, and no event happens in no days. */
const countFaults = ({ groups, strata }: Read): readonly Fault[] =>
  strata.flatMap((one, at) =>
    groups.flatMap((_, group) => {
      const more = (path: string, found: number | null | undefined, most: number | null | undefined, rule: string) =>
        typeof found === "number" && typeof most === "number" && found > most
          ? [{ path: `strata.${at}.${path}.${group}`, code: "contradicts" as const, found: shown(found), rule }]
          : [];
      const ofLines = `at most ${one.lines[group]}, the lines placed`;
      return [
        ...(one.lineDays[group] === 0
          ? more("events", one.events[group], 0, "no event where there are no line-days")
          : []),
        ...one.atRisk.flatMap((row, k) => [
          ...more(`atRisk.${k}`, row[group], one.lines[group], ofLines),
          ...more(`ends.${k}`, one.ends[k]?.[group], row[group], `at most ${row[group]}, who are at risk`),
        ]),
      ];
    }),
  );

export const poolJsonSchema = (): unknown => z.toJSONSchema(schema);
