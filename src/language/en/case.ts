import type { CaseFact, CaseStep, CaseStory, TwoCases } from "../../audit/index.ts";
import { amount } from "./number.ts";
import { sayEvent, sayField, sayOption } from "./record-words.ts";

const FACTS: Readonly<Record<string, string>> = {
  ageBand: "Age",
  diagnosis: "Group of diagnoses",
  indication: "Placed for",
  side: "Arm",
  sizeFr: "Size",
  third: "Place on the arm",
  clinical: "By the ward's word",
  surveillance: "By the definition",
  pairedCulture: "By paired cultures",
  mucosal: "Of an injured mucosal barrier",
  lineBottleMin: "Line's bottle flagged after",
  veinBottleMin: "Vein's bottle flagged after",
  daysLikely: "Likely needed for",
};

const STEPS: Readonly<Record<string, string>> = {
  placed: "Placed",
  found: "Came with the patient",
  infection: "Infection",
  thrombosis: "Clot seen",
  occlusion: "Blocked",
  migration: "Tip moved",
  dislodgement: "Came out",
  "leak or break": "Leak or break",
  "exit site infection": "Exit site infected",
  removed: "Taken out",
  "handed on": "Handed on to another service",
  "in place": "Still in, last seen",
  unknown: "Last known in; its end is not known",
};

export const sayCaseName = ({ name }: CaseFact): string => FACTS[name] ?? sayField(name);
export const sayCaseStep = ({ what }: CaseStep): string => STEPS[what] ?? sayEvent(what);

/** "80 and over" is an age only with its years where they belong. */
const ageWords = (band: string): string =>
  band.endsWith("and over")
    ? band.replace("and over", "years and over")
    : band.startsWith("under")
      ? `${band} ${band === "under 1" ? "year" : "years"}`
      : `${band} years`;

export function sayCaseValue({ name, value, unit }: CaseFact): string {
  if (name === "ageBand" && typeof value === "string" && unit !== "") return ageWords(value);
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return amount(value, unit, Number.isInteger(value) ? 0 : 1);
  if (typeof value === "string") return unit === "" ? sayOption(value) : `${value} ${unit}`;
  return value.map(sayOption).join(", ");
}

/** What an event told of itself, in one line. */
export const sayCaseFacts = (facts: readonly CaseFact[]): string =>
  facts.map((fact) => `${sayCaseName(fact).toLowerCase()} ${sayCaseValue(fact)}`).join("; ");

export const sayCaseDay = (from: number, to = from): string =>
  from === to ? `Day ${from}`.replace("-", "−") : `Days ${from} to ${to}`.replaceAll("-", "−");

/** Every word around a case. */
export const caseWords = {
  title: "A line's story",
  caption: "For teaching. Days count from the placing, day 0.",
  name: "Without identity",
  identifiers: "No name, number, date, ward or free word",
  practice: "Practice, invented",
  head: ["Day", "What happened", "Found"] as const,
  opening: "Whose line",
  course: "From first to last",
  rare: (people: number): string =>
    `${people === 1 ? "Nobody else shares" : `Only ${people} people share`} its age band, diagnosis and month. Somebody may know whose line it was. Ask before you show it.`,
  notRare: "Others share its age band, diagnosis and month of placing.",
  quiet: (cares: number, uses: number): string =>
    [
      cares === 0 ? "" : cares === 1 ? "Cared for once, nothing found" : `Cared for ${cares} times, nothing found`,
      uses === 0 ? "" : uses === 1 ? "used once" : `used ${uses} times`,
    ]
      .filter((one) => one !== "")
      .join("; "),
  more: (steps: number): string => `${steps} more in the file.`,
  foot: (policyVersion: string): string => `Policy ${policyVersion}. Made from a record; nobody is named.`,
  back: "Back to the line",
  print: "Print",
  saveJson: "Save as JSON",
  saveCsv: "Save as CSV",
  none: "This line is not on this device, or was never placed.",
  link: "story for teaching",
} as const;

/** The sheet with the month's two cases. */
export const twoCaseWords = {
  title: "Two cases in depth",
  caption: "Chosen by a rule, told without identity. Days count from the placing, day 0.",
  rule: [
    "Gravest event of the month first; of equals, the shortest stay whose end is known.",
    "Order: infection, clot, leak or break, tip moved, came out, blocked, exit site.",
    "Beside it: the longest stay that ended with treatment, without any event.",
    "Where there is none: the month's first referral declined.",
  ] as const,
  worst: "What went worst",
  well: "What went well",
  noWorst: "No event was counted in this month.",
  noWell: "No line ended with treatment and without an event, and no referral was declined.",
  declined: (instead: string): string =>
    `A line was asked for and not placed, for a good reason. Instead: ${instead}. Declining well is a good outcome.`,
} as const;

/** A case as plain lines, for the command. */
export function caseLines({ opening, steps, peopleAlike, rare }: CaseStory): readonly string[] {
  return [
    ...opening.map((fact) => `${sayCaseName(fact)}: ${sayCaseValue(fact)}`),
    ...steps.map((step) =>
      [`${sayCaseDay(step.day)}: ${sayCaseStep(step)}`, sayCaseFacts(step.facts)]
        .filter((one) => one !== "")
        .join(": "),
    ),
    rare ? caseWords.rare(peopleAlike) : caseWords.notRare,
  ];
}

export function twoCaseLines({ worst, well }: TwoCases): readonly string[] {
  const told = (story: CaseStory): readonly string[] => caseLines(story).map((line) => `  ${line}`);
  return [
    ...twoCaseWords.rule,
    `${twoCaseWords.worst}:`,
    ...(worst ? told(worst.story) : [`  ${twoCaseWords.noWorst}`]),
    `${twoCaseWords.well}:`,
    ...(well === undefined
      ? [`  ${twoCaseWords.noWell}`]
      : well.kind === "line"
        ? told(well.story)
        : [`  ${twoCaseWords.declined(well.instead)}`]),
  ];
}
