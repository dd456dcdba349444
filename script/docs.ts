// Writes the generated pages of docs/: the policy table, the command line, the findings, the case schema, and the
// validation table from the comparisons of the last reference run.
import { measureWords } from "./measure-words.ts";
import { blindCount } from "./blind-count.ts";
import { heldWords } from "./quality-words.ts";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { LINE_COLUMNS, lineTableSchema, QUALITY_RULES, readMeasures, readYardsticks } from "../src/audit/index.ts";
import { commands } from "../src/cli/command/index.ts";
import {
  careJsonSchemas,
  chartJsonSchema,
  FAULT_CODES,
  flowJsonSchemas,
  planCaseJsonSchema,
  poolJsonSchema,
  referralJsonSchema,
  tipJsonSchemas,
} from "../src/contract/index.ts";
import {
  findingSentences,
  qualityWords,
  rowFaultSentences,
  ruleReasons,
  sayFault,
  sayMeasure,
  yardstickSource,
} from "../src/language/index.ts";
import { defaultPolicyTable } from "../src/policy/index.ts";
import { consequenceOf, ROW_FAULTS, standingOf, type RowFaultCode } from "../src/spreadsheet/index.ts";
import type { CheckResult } from "../reference/check.ts";

const cell = (text: string) => text.replaceAll("|", "\\|");
const table = (head: readonly string[], rows: readonly (readonly string[])[]) =>
  [
    `| ${head.join(" | ")} |`,
    `|${head.map(() => "---").join("|")}|`,
    ...rows.map((row) => `| ${row.map(cell).join(" | ")} |`),
  ].join("\n");

const shownValue = (value: unknown): string =>
  Array.isArray(value)
    ? value.map(shownValue).join(", ")
    : typeof value === "number"
      ? String(Number(value.toFixed(4)))
      : String(value);

function policyPage(): string {
  const rows = Object.entries(defaultPolicyTable).map(([key, row]) => [
    `\`${key}\``,
    row.decides,
    `${shownValue(row.value)} ${row.unit}`.trim(),
    row.howKnown,
    [row.source, row.place, row.others ? `Others in print: ${row.others.join("; ")}.` : undefined]
      .filter((part) => part !== undefined)
      .join(", "),
  ]);
  return `# Policy rows\n\nEvery limit of this release. A hospital changes the value on the page "Local policy".\n\n${table(["row", "decides", "default", "how known", "source"], rows)}\n`;
}

function commandPage(): string {
  const rows = commands.map(({ name, summary, usage }) => [`\`${name}\``, summary, `\`npx --no ${usage}\``]);
  return `# Command line\n\n${table(["command", "what it does", "usage"], rows)}\n\nExit: 0 answered, 2 a question is open, 3 refused, 64 bad usage, 65 bad input data, 70 a fault of the program itself.\n`;
}

function findingPage(): string {
  const rows = Object.keys(findingSentences)
    .sort()
    .map((code) => [`\`${code}\``, ruleReasons[code] ?? ""]);
  return `# Findings\n\nEvery code an answer can carry. Its sentence stands in src/language/en/finding.ts.\n\n${table(["code", "why the rule is there"], rows)}\n`;
}

function faultPage(): string {
  const rows = FAULT_CODES.map((code) => [
    `\`${code}\``,
    sayFault({
      path: code === "not-json" || code === "too-large" ? "" : "patient.heightCm",
      code,
      found: "1.234,5",
      rule: "at least 20",
    }),
  ]);
  return `# Faults of a file\n\nA file with ten faults reports ten; the exit is 65. Each says where, what was found, the rule, and what to do.\n\n${table(["code", "how it reads, with an invented value"], rows)}\n`;
}

function qualityPage(): string {
  const rows = Object.entries(QUALITY_RULES).map(([code, severity]) => [
    code,
    severity,
    qualityWords[code as keyof typeof QUALITY_RULES],
  ]);
  return `# Rules of the record's quality\n\nstop: in no figure until mended. hold: out of the figures it touches, or its value is taken as not known. warn: shown and kept. Every report counts the lines that break each rule, and every figure says how many rows it used of all. Their limits are the rows \`count.\` and \`quality.\` of [the policy](policy.md). Small cells of a report that leaves the service are withheld by a rule of their own.\n\n${table(["rule", "severity", "what it means, and what to do"], rows)}\n\n## How they are held\n\nWhere the sentence above leaves a choice.\n\n${table(["rule", "in words"], heldWords)}\n`;
}

function lineTablePage(): string {
  const rows = LINE_COLUMNS.map(({ name, kind, what, options, least, most, must }) => [
    `\`${name}\`${must ? ", must" : ""}`,
    kind,
    what,
    options?.join(", ") ?? (least === undefined ? "" : `${least} to ${most}`),
  ]);
  return `# Columns of the line table\n\nOne row per line, CSV with these names in the first row, in any order. Only the columns marked must have to be there. In a list \`none\` says that it is empty; an empty cell says that nobody asked.\n\n${table(["column", "kind", "what it holds", "values"], rows)}\n`;
}

function importFaultPage(): string {
  const rows = (Object.keys(ROW_FAULTS) as RowFaultCode[]).map((code) => {
    const { severity, rule, source } = standingOf(code);
    return [code, rowFaultSentences[code], consequenceOf(code), severity, rule ?? "", source];
  });
  return `# Faults of a spreadsheet's rows\n\nWhat the import tells of a row. "row left out": it is no line, or stands already. "value left out": the line stays, the value is not known. "asked": taken as written, for a person to look at; where counting has the rule too, its severity there is named (docs/reference/quality.md). Limits are the rows \`sheet...\` of docs/reference/policy.md.\n\n${table(["fault", "what it means, and what to do", "becomes", "severity", "rule of counting", "source"], rows)}\n`;
}

function measurePage(): string {
  const reading = readMeasures();
  const measures = reading.kind === "measures" ? reading.measures : [];
  const rows = measures.map(({ id, numerator, denominator, clock, why, source, howKnown, author, reviewOn }) => [
    `\`${id}\``,
    sayMeasure(id),
    Object.values(numerator).join(": "),
    denominator,
    clock,
    why,
    `${source} (${howKnown})`,
    `${author}, ${reviewOn}`,
  ]);
  const found = readYardsticks(measures);
  const elsewhere = (found.kind === "yardsticks" ? found.yardsticks : []).map((one) => [
    `\`${one.id}\``,
    `\`${one.measure}\``,
    `${one.value}${one.interval ? ` (${one.interval.lower} to ${one.interval.upper})` : ""} ${one.unit}`,
    one.clock === "none" ? one.denominator : one.clock,
    one.definition,
    one.differs.join("; "),
    `${one.population}${one.lines === null ? "" : `, ${one.lines} lines`}; ${one.country}; ${one.years}`,
    yardstickSource(one),
    `${one.author}, ${one.reviewOn}`,
  ]);
  return `# Measures\n\nEach is data in src/measure and is checked when it is read.\n\n${table(["id", "name", "numerator", "denominator", "clock", "why", "source", "author, review by"], rows)}\n\n## How they are counted\n\n${table(["set, clock or doubt", "in words"], measureWords)}\n\n## What others published\n\nContext only, from src/measure/yardstick. A figure stands beside a service's own only where denominator, clock and definition agree; otherwise its number is left out on screen and paper, and what differs is said.\n\n${table(["id", "measure", "value", "over", "what was counted", "differs", "whose lines, where, when", "source and how known", "author, review by"], elsewhere)}\n`;
}

/** Digits that only the machine's own mathematics decides are not printed: they differ from one Node to the next. */
function shownWorst({ unit, worst }: CheckResult): string {
  if (worst < 1e-11) return "under 1e-11";
  return unit.startsWith("error /") && worst < 0.5 ? "under 0.5" : upward(worst);
}

/** One significant figure upward, so that two machines that differ in the last bit print the same page. */
const upward = (error: number): string => {
  if (error === 0) return "0";
  const power = 10 ** Math.floor(Math.log10(error));
  return (Math.ceil(error / power) * power).toExponential(0);
};

export function validationPage(results: readonly CheckResult[]): string {
  const rows = results.map((result) => [
    result.quantity,
    result.kind,
    result.source,
    `${result.made} of ${result.comparisons}`,
    `${result.tolerance} ${result.relative ? "relative" : result.unit}`,
    shownWorst(result),
  ]);
  return `# Validation\n\nEvery comparison with something that is not this program, from the last run of the reference tests. Generated by \`npm run docs\`; the gate fails when it is stale or a comparison was skipped.\n\n${table(["quantity", "kind", "source", "comparisons", "tolerance", "worst error"], rows)}\n\nKinds: published (printed by someone else), by-hand (algebra a reader can redo), independent (other software), trade (common practice, no source).\n\n${blindCount}\n`;
}

/** The promise of the distribution functions: everything before this heading is the same on every machine, this is not. */
export const WORST_HEADING = "## Distribution functions: worst case and its place";

/** Where each family of distribution functions errs most, as a share of what is promised there, as this machine measured it. */
export function worstCases(results: readonly CheckResult[]): string {
  const rows = results
    .filter(({ unit }) => unit.startsWith("error /"))
    .map(({ quantity, made, worst, worstAt }) => [quantity, String(made), worst.toPrecision(2), worstAt]);
  return `\n${WORST_HEADING}\n\nPromised: 1e-13 of the value, or 8 units in the last place times the condition number where that is larger, for shapes to 1e6 and tails to 1e-300. Shown is the largest error as a share of that, and where it stands: below 1 is kept. The last digits are those of the machine that made this page.\n\n${table(["family", "places", "worst share", "at"], rows)}\n`;
}

export function readResults(): readonly CheckResult[] {
  const folder = ".cache/validation";
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .map((name) => JSON.parse(readFileSync(`${folder}/${name}`, "utf8")) as CheckResult)
    .sort((a, b) => (`${a.quantity}${a.source}` < `${b.quantity}${b.source}` ? -1 : 1));
}

export const generatedPages = (): Readonly<Record<string, string>> => ({
  "docs/reference/policy.md": policyPage(),
  "docs/reference/command-line.md": commandPage(),
  "docs/reference/finding.md": findingPage(),
  "docs/reference/quality.md": qualityPage(),
  "docs/reference/fault.md": faultPage(),
  "docs/reference/line-table.md": lineTablePage(),
  "docs/reference/measure.md": measurePage(),
  "docs/reference/pool-schema.json": `${JSON.stringify(poolJsonSchema(), null, 2)}\n`,
  "docs/reference/line-table-schema.json": `${JSON.stringify(lineTableSchema(), null, 2)}\n`,
  "docs/reference/chart-schema.json": `${JSON.stringify(chartJsonSchema(), null, 2)}\n`,
  "docs/reference/need-schema.json": `${JSON.stringify(referralJsonSchema(), null, 2)}\n`,
  ...Object.fromEntries(
    Object.entries({ ...flowJsonSchemas, ...careJsonSchemas, ...tipJsonSchemas }).map(([name, schema]) => [
      `docs/reference/${name}-schema.json`,
      `${JSON.stringify(schema(), null, 2)}\n`,
    ]),
  ),
  "docs/reference/import-fault.md": importFaultPage(),
  "docs/reference/case-schema.json": `${JSON.stringify(planCaseJsonSchema(), null, 2)}\n`,
});

if (process.argv[1]?.endsWith("docs.ts")) {
  mkdirSync("docs/reference", { recursive: true });
  for (const [file, text] of Object.entries(generatedPages())) writeFileSync(file, text);
  const results = readResults();
  if (results.length === 0) console.error("No comparisons to report: run `npx vitest run --project reference` first.");
  else writeFileSync("docs/validation.md", validationPage(results) + worstCases(results));
}
