import type { Side } from "../core/arm/index.ts";
import type { StockCatheter } from "../core/catheter/index.ts";
import type { ArmInput, PlanInput } from "../core/line-plan/index.ts";
import { isMissing, missing } from "../core/missing/index.ts";
import { kilogram, poundToKilogram, pound } from "../core/quantity/index.ts";
import type { Finding } from "../core/reason/index.ts";
import { shown, type Fault } from "./fault.ts";
import { readNumber } from "./number-text.ts";
import { acrossFields } from "./across-fields.ts";
import { planCase, type PlanCase } from "./plan-schema.ts";

export type CaseReading =
  | { readonly kind: "case"; readonly input: PlanInput; readonly echoes: readonly Finding[] }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] };

const LARGEST_FILE = 1_000_000;
const notAsked = missing("not asked");

/** Reads the text of a CASE.json; every fault of the file is reported at once. */
export function readCaseText(text: string, shelf: readonly StockCatheter[]): CaseReading {
  if (text.length > LARGEST_FILE) {
    return {
      kind: "faults",
      faults: [
        { path: "", code: "too-large", found: `${text.length} characters`, rule: "at most 1 000 000 characters" },
      ],
    };
  }
  try {
    return readCase(JSON.parse(text.replace(/^\uFEFF/, "")) as unknown, shelf);
  } catch {
    return { kind: "faults", faults: [{ path: "", code: "not-json", found: shown(text), rule: "the file is JSON" }] };
  }
}

/** Turns a parsed case into checked input for the planner, or into the list of everything wrong with it. */
export function readCase(json: unknown, shelf: readonly StockCatheter[]): CaseReading {
  const faults: Fault[] = [];
  const numbered = withNumbers(json, "", faults);
  const result = planCase.safeParse(numbered);
  if (!result.success) faults.push(...result.error.issues.flatMap((issue) => faultsOf(issue, numbered)));
  if (result.success) faults.push(...acrossFields(result.data));
  if (faults.length > 0 || !result.success) return { kind: "faults", faults: distinct(faults) };
  return { kind: "case", ...inputFrom(result.data, shelf) };
}

/** Names stay text; everywhere else a text that reads as a number is one, with a decimal comma or point. */
const TEXT_FIELDS =
  /(^|\.)(name|identifier|bornOn|id|material|reason|names\.\d+|code|measuredAt|catheterId|missing|unit|vein|side|artery|dominantArm|bars\.\d+)$/;

function withNumbers(value: unknown, path: string, faults: Fault[]): unknown {
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
  if (Array.isArray(value)) return value.map((entry, index) => withNumbers(entry, join(path, String(index)), faults));
  if (typeof value === "object" && value !== null) {
    // own keys only, copied into a plain object: a key like "__proto__" stays an unknown field and reaches nothing
    const copy = Object.create(null) as Record<string, unknown>;
    for (const [key, entry] of Object.entries(value)) copy[key] = withNumbers(entry, join(path, key), faults);
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

function inputFrom(
  data: PlanCase,
  shelf: readonly StockCatheter[],
): { readonly input: PlanInput; readonly echoes: readonly Finding[] } {
  const { weightLb, weightKg, ...patient } = data.patient;
  const inPounds = weightLb !== undefined && !isMissing(weightLb) ? weightLb : undefined;
  const echoes: Finding[] = [];
  if (inPounds !== undefined) {
    const values = { weightLb: inPounds, weightKg: poundToKilogram(pound(inPounds)) };
    echoes.push({
      code: "weight-converted",
      verdict: "met",
      level: "note",
      values,
      policy: [],
      path: "patient.weightLb",
    });
  }
  const absent = {
    name: notAsked,
    identifier: notAsked,
    bornOn: notAsked,
    age: notAsked,
    bornPreterm: notAsked,
    correctedAgeDays: notAsked,
    heightCm: notAsked,
    dominantArm: notAsked,
  };
  const noLengths = {
    tapeFromCm: notAsked,
    surfaceTapeCm: notAsked,
    secondTapeCm: notAsked,
    lastGoodLengthCm: notAsked,
    lastGoodEntryCm: notAsked,
  };
  // the schema has checked every value; brands carry no run-time meaning
  const input = {
    patient: {
      ...absent,
      ...patient,
      weightKg:
        inPounds === undefined ? (weightKg ?? weightLb ?? notAsked) : kilogram(poundToKilogram(pound(inPounds))),
    },
    need: { lumens: notAsked, flowMlPerHour: notAsked, blood: notAsked, contrastMlPerSecond: notAsked, ...data.need },
    arms: { right: armFrom(data, "right"), left: armFrom(data, "left") },
    shelf:
      data.shelf?.map((entry) => ({
        outsideDiameterMm: notAsked,
        lumenVolumesMl: notAsked,
        flowLabelMlPerHour: notAsked,
        bloodByLabel: notAsked,
        contrastLabelMlPerSecond: notAsked,
        material: notAsked,
        ...entry,
      })) ?? shelf,
    length: {
      clavicleCm: notAsked,
      sternumCm: notAsked,
      entryToAxillaryPointCm: notAsked,
      creaseBelowEpicondyleCm: notAsked,
      outsideCm: notAsked,
      ...data.length,
      sides: {
        right: { ...noLengths, ...data.length?.sides?.right },
        left: { ...noLengths, ...data.length?.sides?.left },
      },
    },
    anaesthetic: { concentrationPercent: notAsked, withAdrenaline: notAsked, ...data.anaesthetic },
    overrides: data.overrides ?? [],
    ...(data.fixedPlace ? { fixedPlace: data.fixedPlace } : {}),
  } as unknown as PlanInput;
  return { input, echoes };
}

function armFrom(data: PlanCase, side: Side): ArmInput {
  const arm = data.arms[side];
  const absent = {
    diameterMm: notAsked,
    depthMm: notAsked,
    artery: notAsked,
    nerveBeside: notAsked,
    compressible: notAsked,
    thrombus: notAsked,
    tourniquetOn: notAsked,
  };
  return {
    armLengthCm: arm?.armLengthCm ?? notAsked,
    bars: arm?.bars ?? notAsked,
    surveys: (arm?.surveys ?? []).map((survey) => ({
      vein: survey.vein,
      stations: survey.stations.map((station) => ({ ...absent, veinPresent: true, repeats: 1, ...station })),
    })),
    pastLines: (arm?.pastLines ?? []).map((line) => ({ atCm: notAsked, ...line })),
  } as unknown as ArmInput;
}
