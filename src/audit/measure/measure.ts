import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { LINE_CLOCKS, type LineClock } from "../../core/dwell/index.ts";
import { HOW_KNOWN, type HowKnown } from "../../core/reason/index.ts";
import { measureFiles } from "../../measure/index.ts";
import { ROW_EVENTS, type RowEventKind } from "../line/index.ts";
import { LINE_TESTS, REFERRAL_TESTS, type LineTest, type ReferralTest } from "./line-test.ts";

export const LINE_SETS = ["lines placed", "lines removed", "lines in place at the end", "lines in the period"] as const;
export type LineSet = (typeof LINE_SETS)[number];
export const EVENT_FLAGS = [
  "any",
  "clinical",
  "surveillance",
  "surveillance without mucosal barrier",
  "paired culture",
] as const;
export type EventFlag = (typeof EVENT_FLAGS)[number];

/** Whether repeats of a person within the surveillance frame fall on the first of them. */
export const mergesRepeats = (flag: EventFlag): boolean => flag.startsWith("surveillance");

export type Numerator =
  | { readonly count: "lines"; readonly of: LineSet; readonly test: LineTest }
  | { readonly count: "lines"; readonly of: "referrals"; readonly test: ReferralTest }
  | { readonly count: "events"; readonly event: RowEventKind | "any"; readonly flag: EventFlag }
  | { readonly count: "days"; readonly of: "line days" | "idle days" };

/** What a figure counts and over what, as data: a service adds its own and no code changes. */
export interface Measure {
  readonly id: string;
  readonly numerator: Numerator;
  readonly denominator: LineSet | "referrals" | "line days" | "none";
  readonly clock: LineClock | "none";
  readonly why: string;
  readonly source: string;
  readonly howKnown: HowKnown;
  readonly author: string;
  readonly reviewOn: CivilDate;
}

/** What is wrong with a measure: which one, which field, what was found and what is allowed. */
export interface MeasureFault {
  readonly measure: string;
  readonly field: string;
  readonly found: string;
  readonly rule: string;
}

export type MeasureReading =
  | { readonly kind: "measures"; readonly measures: readonly Measure[] }
  | { readonly kind: "faults"; readonly faults: readonly MeasureFault[] };

type Fields = Readonly<Record<string, unknown>>;
const TEXTS = ["why", "source", "author"] as const;
const FIELDS = new Set(["id", "numerator", "denominator", "clock", "why", "source", "howKnown", "author", "reviewOn"]);
export const DENOMINATORS = [...LINE_SETS, "referrals", "line days", "none"] as const;

/** Reads measure files; every fault of every measure is told, and while there is one no measure is taken. */
export function readMeasures(files: readonly unknown[] = measureFiles): MeasureReading {
  const faults: MeasureFault[] = [];
  const measures: Measure[] = [];
  const ids = new Set<string>();
  for (const file of files) {
    if (!Array.isArray(file)) {
      faults.push({ measure: "", field: "", found: typeof file, rule: "a list of measures" });
      continue;
    }
    for (const entry of file as unknown[]) {
      const fields: Fields = typeof entry === "object" && entry !== null ? (entry as Fields) : {};
      const id = typeof fields["id"] === "string" ? fields["id"] : "";
      const before = faults.length;
      faults.push(...faultsOf(fields, id, ids));
      ids.add(id);
      if (faults.length === before) measures.push(fields as unknown as Measure);
    }
  }
  return faults.length > 0 ? { kind: "faults", faults } : { kind: "measures", measures };
}

function faultsOf(fields: Fields, id: string, taken: ReadonlySet<string>): readonly MeasureFault[] {
  const faults: MeasureFault[] = [];
  const tell = (field: string, found: unknown, rule: string): void => {
    faults.push({
      measure: id,
      field,
      found: typeof found === "string" ? found : (JSON.stringify(found) ?? "nothing"),
      rule,
    });
  };
  const among = (field: string, found: unknown, options: readonly string[]): void => {
    if (typeof found !== "string" || !options.includes(found)) tell(field, found, `one of: ${options.join(", ")}`);
  };
  if (!/^[a-z][a-z0-9-]*$/.test(id)) tell("id", fields["id"], "small letters, digits and hyphens");
  if (taken.has(id)) tell("id", id, "each id once");
  for (const field of Object.keys(fields)) if (!FIELDS.has(field)) tell(field, fields[field], "no such field");
  for (const field of TEXTS)
    if (typeof fields[field] !== "string" || fields[field].trim() === "") tell(field, fields[field], "some words");
  among("howKnown", fields["howKnown"], HOW_KNOWN);
  if (typeof fields["reviewOn"] !== "string" || !parseCivilDate(fields["reviewOn"]))
    tell("reviewOn", fields["reviewOn"], "a date, YYYY-MM-DD");
  among("denominator", fields["denominator"], DENOMINATORS);
  const numerator = (fields["numerator"] ?? {}) as Fields;
  among("numerator.count", numerator["count"], ["lines", "events", "days"]);
  if (numerator["count"] === "events") {
    among("numerator.event", numerator["event"], [...ROW_EVENTS, "any"]);
    among("numerator.flag", numerator["flag"], EVENT_FLAGS);
    among("denominator", fields["denominator"], ["line days"]);
  } else if (numerator["count"] === "days") {
    among("numerator.of", numerator["of"], ["line days", "idle days"]);
    among("denominator", fields["denominator"], numerator["of"] === "idle days" ? ["line days"] : ["none"]);
  } else {
    among("numerator.of", numerator["of"], [...LINE_SETS, "referrals"]);
    among("numerator.test", numerator["test"], numerator["of"] === "referrals" ? REFERRAL_TESTS : LINE_TESTS);
    among("denominator", fields["denominator"], [String(numerator["of"]), "none"]);
  }
  const timed = numerator["count"] === "events" || numerator["count"] === "days";
  among("clock", fields["clock"], timed ? LINE_CLOCKS : ["none"]);
  return faults;
}
