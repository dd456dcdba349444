import { parseCivilDate } from "../../core/calendar/index.ts";
import { HOW_KNOWN } from "../../core/reason/index.ts";
import { yardstickFiles } from "../../measure/index.ts";
import { DENOMINATORS, type Measure } from "../measure/index.ts";
import { VALUE_FROM, YARDSTICK_CLOCKS, YARDSTICK_UNITS, type Yardstick } from "./yardstick.ts";

/** What is wrong with a published figure: which one, which field, what was found and what is allowed. */
export interface YardstickFault {
  readonly yardstick: string;
  readonly field: string;
  readonly found: string;
  readonly rule: string;
}

export type YardstickReading =
  | { readonly kind: "yardsticks"; readonly yardsticks: readonly Yardstick[] }
  | { readonly kind: "faults"; readonly faults: readonly YardstickFault[] };

type Fields = Readonly<Record<string, unknown>>;
type Tell = (field: string, found: unknown, rule: string) => void;

const TEXTS = ["definition", "population", "place", "country", "years", "source", "section", "author"] as const;
const CHOICES = {
  unit: YARDSTICK_UNITS,
  valueFrom: VALUE_FROM,
  denominator: DENOMINATORS,
  clock: YARDSTICK_CLOCKS,
  clockHowKnown: HOW_KNOWN,
  howKnown: HOW_KNOWN,
} as const satisfies Readonly<Record<string, readonly string[]>>;
const COUNTS = ["counted", "over", "lines"] as const;
const FIELDS = new Set([
  "id",
  "measure",
  "value",
  "interval",
  "differs",
  "reviewOn",
  ...TEXTS,
  ...Object.keys(CHOICES),
  ...COUNTS,
]);
const PER_THOUSAND = 1000;

/**
 * Reads files of published figures; every fault of every row is told, and while there is one no row is taken. A value
 * must agree with the counts it stands beside, to its own last digit, and lie in its interval.
 */
export function readYardsticks(
  measures: readonly Measure[],
  files: readonly unknown[] = yardstickFiles,
): YardstickReading {
  const faults: YardstickFault[] = [];
  const yardsticks: Yardstick[] = [];
  const ids = new Set<string>();
  for (const file of files) {
    if (!Array.isArray(file)) {
      faults.push({ yardstick: "", field: "", found: typeof file, rule: "a list of published figures" });
      continue;
    }
    for (const entry of file as unknown[]) {
      const fields: Fields = typeof entry === "object" && entry !== null ? (entry as Fields) : {};
      const id = typeof fields["id"] === "string" ? fields["id"] : "";
      const before = faults.length;
      const tell: Tell = (field, found, rule) => faults.push({ yardstick: id, field, found: shown(found), rule });
      if (!/^[a-z][a-z0-9-]*$/.test(id)) tell("id", fields["id"], "small letters, digits and hyphens");
      if (ids.has(id)) tell("id", id, "each id once");
      ids.add(id);
      checkWords(fields, measures, tell);
      checkNumbers(fields, tell);
      if (faults.length === before) yardsticks.push(fields as unknown as Yardstick);
    }
  }
  return faults.length > 0 ? { kind: "faults", faults } : { kind: "yardsticks", yardsticks };
}

const shown = (found: unknown): string => (typeof found === "string" ? found : (JSON.stringify(found) ?? "nothing"));
const isNumber = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);

function checkWords(fields: Fields, measures: readonly Measure[], tell: Tell): void {
  for (const field of Object.keys(fields)) if (!FIELDS.has(field)) tell(field, fields[field], "no such field");
  for (const field of TEXTS)
    if (typeof fields[field] !== "string" || fields[field].trim() === "") tell(field, fields[field], "some words");
  for (const [field, options] of Object.entries(CHOICES) as [string, readonly string[]][])
    if (!options.includes(fields[field] as string)) tell(field, fields[field], `one of: ${options.join(", ")}`);
  if (!measures.some(({ id }) => id === fields["measure"])) tell("measure", fields["measure"], "the id of a measure");
  const differs = fields["differs"];
  if (!Array.isArray(differs) || !differs.every((one) => typeof one === "string" && one.trim() !== ""))
    tell("differs", differs, "a list of words, empty when nothing differs");
  if (typeof fields["reviewOn"] !== "string" || !parseCivilDate(fields["reviewOn"]))
    tell("reviewOn", fields["reviewOn"], "a date, YYYY-MM-DD");
  const overDays = fields["denominator"] === "line days";
  if ((fields["unit"] === "per 1,000 days") !== overDays)
    tell("unit", fields["unit"], "per 1,000 days over line days, a share over lines");
  if ((fields["clock"] === "none") === overDays)
    tell("clock", fields["clock"], "a clock over line days, none over lines");
}

function checkNumbers(fields: Fields, tell: Tell): void {
  const { value, interval, counted, over } = fields;
  for (const field of COUNTS)
    if (fields[field] !== null && !(Number.isInteger(fields[field]) && (fields[field] as number) >= 0))
      tell(field, fields[field], "a whole number, or null where none was printed");
  if (!isNumber(value) || value < 0 || (fields["unit"] === "share" && value > 1)) {
    tell("value", value, "a rate from 0, or a share from 0 to 1");
    return;
  }
  if (isNumber(counted) && isNumber(over) && over > 0) {
    const quotient = (counted / over) * (fields["unit"] === "share" ? 1 : PER_THOUSAND);
    if (Math.abs(quotient - value) > lastDigit(value)) tell("value", value, `${counted} over ${over}`);
  }
  if (interval === null) return;
  const { lower, upper, level } = (interval ?? {}) as Fields;
  if (!isNumber(lower) || !isNumber(upper) || !isNumber(level) || !(level > 0 && level < 1))
    tell("interval", interval, "lower, upper and level, or null where none was printed");
  else if (!(lower <= value && value <= upper)) tell("interval", interval, "the value lies in it");
}

/** One in the last digit a value is written with: sources round, and some cut. */
const lastDigit = (value: number): number => 10 ** -(String(value).split(".")[1]?.length ?? 0);
