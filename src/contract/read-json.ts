import type * as z from "zod/mini";
import { missing } from "../core/missing/index.ts";
import { shown, type Fault } from "./fault.ts";
import { readNumber } from "./number-text.ts";

export interface Faults {
  readonly kind: "faults";
  readonly faults: readonly Fault[];
}

const LARGEST_FILE = 1_000_000;
const notAsked = missing("not asked");

/** The JSON of a file, or the one fault that keeps it from being read at all. */
export function parsedJson(text: string): { readonly kind: "json"; readonly json: unknown } | Faults {
  if (text.length > LARGEST_FILE) {
    const found = `${text.length} characters`;
    return { kind: "faults", faults: [{ path: "", code: "too-large", found, rule: "at most 1 000 000 characters" }] };
  }
  try {
    return { kind: "json", json: JSON.parse(text.replace(/^\uFEFF/, "")) as unknown };
  } catch {
    return { kind: "faults", faults: [{ path: "", code: "not-json", found: shown(text), rule: "the file is JSON" }] };
  }
}

/** Holds a parsed file against its schema and against what no single field shows; every fault is reported at once. */
export function readJson<Schema extends z.ZodMiniType>(
  json: unknown,
  schema: Schema,
  across: (data: z.infer<Schema>) => readonly Fault[],
): { readonly kind: "read"; readonly data: z.infer<Schema> } | Faults {
  const faults: Fault[] = [];
  const numbered = withNumbers(json, "", faults);
  const result = schema.safeParse(numbered);
  if (!result.success) {
    // a text that could not be read as a number has been named already; the schema would only say so again
    const named = new Set(faults.map(({ path }) => path));
    const more = result.error.issues.flatMap((issue) => faultsOf(issue, numbered));
    faults.push(...more.filter(({ path }) => !named.has(path)));
  }
  // fields nobody knows do not hide what the known ones say against each other
  const readable = result.success || result.error.issues.every(({ code }) => code === "unrecognized_keys");
  if (readable) faults.push(...across((result.success ? result.data : numbered) as z.infer<Schema>));
  if (faults.length > 0 || !result.success) return { kind: "faults", faults: distinct(faults) };
  return { kind: "read", data: result.data };
}

/** Names stay text; everywhere else a text that reads as a number is one, with a decimal comma or point. */
const TEXT_FIELDS =
  /(^|\.)(name|identifier|bornOn|id|material|reason|names\.\d+|code|measuredAt|catheterId|missing|unit|vein|side|sex|on|filtrationOn|teamAgreed|state|purpose|oral|carer|setting|cancer|cycles|pregnancy|replacement|tissueClass|armBars|times|content|infusates\.\d+|together\.\d+\.\d+|artery|dominantArm|bars\.\d+|person|place|organism|lumen|armConfirmedBy|service|groups\.\d+|stratum)$/;

/** No schema here is so deep; a file that is was made to break the reader. */
const DEEPEST = 20;

function withNumbers(value: unknown, path: string, faults: Fault[], depth = 0): unknown {
  if (depth > DEEPEST) {
    faults.push({ path: "", code: "wrong-type", found: "a file within files", rule: `at most ${DEEPEST} levels deep` });
    return notAsked;
  }
  if (typeof value === "string" && !TEXT_FIELDS.test(path)) {
    const reading = readNumber(value);
    if (reading.kind === "number") return reading.value;
    if (reading.kind === "empty") return notAsked;
    if (reading.kind === "not known") return missing("not known");
    if (reading.kind === "thousands separator") {
      faults.push({
        path,
        code: "thousands-separator",
        found: shown(value),
        rule: "one decimal comma or point, no thousands mark",
      });
      return notAsked;
    }
    return value;
  }
  if (Array.isArray(value))
    return value.map((entry, index) => withNumbers(entry, join(path, String(index)), faults, depth + 1));
  if (typeof value === "object" && value !== null) {
    // own keys only, copied into a plain object: a key like "__proto__" stays an unknown field and reaches nothing
    const copy = Object.create(null) as Record<string, unknown>;
    for (const [key, entry] of Object.entries(value))
      copy[key] = withNumbers(entry, join(path, key), faults, depth + 1);
    return { ...copy };
  }
  return value;
}

const join = (path: string, key: string) => (path === "" ? key : `${path}.${key}`);

interface Issue {
  readonly code?: string | undefined;
  readonly path: PropertyKey[];
  readonly message?: string;
  readonly keys?: string[];
  readonly errors?: Issue[][];
  readonly minimum?: number | bigint;
  readonly maximum?: number | bigint;
  readonly values?: readonly unknown[];
  readonly expected?: string;
  readonly origin?: string;
}

function faultsOf(issue: Issue, whole: unknown, above: readonly PropertyKey[] = []): Fault[] {
  const keys = [...above, ...issue.path];
  const path = keys.map(String).join(".");
  const found = shown(
    keys.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | undefined)?.[key], whole),
  );
  switch (issue.code ?? "") {
    case "unrecognized_keys":
      return (issue.keys ?? []).map((key) => ({
        path: join(path, key),
        code: "unknown-field",
        found: key,
        rule: "a field of the schema",
      }));
    case "invalid_union":
      // the first branch is the value itself, the second an absence: speak of the value
      return (issue.errors?.[0] ?? []).flatMap((inner) => faultsOf(inner, whole, keys));
    case "too_small":
      return [
        { path, code: "out-of-range", found, rule: `at least ${String(issue.minimum)}`, ...metresMeant(path, found) },
      ];
    case "too_big":
      if (path.endsWith("nominalFrench"))
        return [{ path, code: "gauge-for-french", found, rule: `at most ${String(issue.maximum)}` }];
      return [
        {
          path,
          code: "out-of-range",
          found,
          rule: `at most ${String(issue.maximum)}`,
          ...pointLost(found, Number(issue.maximum)),
        },
      ];
    case "invalid_value":
      return [{ path, code: "not-in-list", found, rule: `one of: ${(issue.values ?? []).map(String).join(", ")}` }];
    default:
      return [
        {
          path,
          code: found === "undefined" ? "missing-field" : "wrong-type",
          found,
          rule: issue.expected ?? "the form the schema asks",
        },
      ];
  }
}

/** 43 where 20 is the most: a lost point, or millimetres for centimetres. */
function pointLost(found: string, most: number): { readonly meant?: number } {
  const meant = Number(found) / 10;
  return meant > 0 && meant <= most ? { meant } : {};
}

/** A height of 1.75 is a height in metres. */
function metresMeant(path: string, found: string): { readonly meant?: number } {
  const metres = Number(found);
  return path.endsWith("heightCm") && metres >= 0.3 && metres <= 2.5 ? { meant: Math.round(metres * 100) } : {};
}

const distinct = (faults: readonly Fault[]): readonly Fault[] => [
  ...new Map(faults.map((fault) => [`${fault.path} ${fault.code} ${fault.rule}`, fault])).values(),
];
