import type { PlanCase } from "./plan-schema.ts";

/** A plan as it is being typed: the text of every field by its path. Nothing is refused here, so nothing is lost. */
export type Draft = Readonly<Record<string, string>>;

/** Checks made once for a vein; they hold for each of its readings. */
const VEIN_CHECKS = ["compressible", "thrombus", "artery", "nerveBeside", "tourniquetOn"] as const;

const FLAG = /(^|\.)(blood|bornPreterm|compressible|thrombus|nerveBeside|tourniquetOn|withAdrenaline|bloodByLabel)$/;

/**
 * The case a draft stands for. Empty fields are left out (not asked); yes and no become flags; weight takes its unit's
 * field; an arm's reasons become a list once they were asked. Text that is no number stays text, and the reader of the
 * case says so.
 */
export function caseFromDraft(draft: Draft): CaseOfDraft {
  const keysOf = new Map<string, readonly string[]>();
  const root: Record<string, unknown> = { patient: {}, need: {}, arms: {} };
  for (const side of ["right", "left"]) {
    if (draft[`arms.${side}.barsAsked`] === "yes") setAt(root, ["arms", side, "bars"], barsOf(draft, side));
  }
  for (const [path, text] of Object.entries(draft)) {
    // the need before the arm is read by its own reader
    if (path.startsWith("referral.") || path.startsWith("chart.")) continue;
    if (text.trim() === "" || /\.(barsAsked|bar\..+|checks\..+)$/.test(path) || path === "patient.weightUnit") continue;
    if (path === "patient.weight") {
      const unit = draft["patient.weightUnit"];
      if (unit === "kg" || unit === "lb") setAt(root, ["patient", unit === "kg" ? "weightKg" : "weightLb"], text);
      continue;
    }
    if (path.startsWith("patient.age.") && !(draft["patient.age.value"] && draft["patient.age.unit"])) continue;
    setAt(root, path.split("."), valueOf(path, text));
  }
  for (const side of ["right", "left"]) tidyArm(root, draft, side, keysOf);
  if (root["overrides"]) {
    root["overrides"] = listed(root["overrides"], "overrides", keysOf, (entry) => entry["code"] !== undefined).map(
      wholeOverride,
    );
  }
  if (root["shelf"]) {
    root["shelf"] = listed(root["shelf"], "shelf", keysOf, (entry) => entry["name"] !== undefined).map(listedVolumes);
  }
  return { json: root, typedPath: (path) => typedPath(path, keysOf) };
}

function barsOf(draft: Draft, side: string): string[] {
  const prefix = `arms.${side}.bar.`;
  return Object.entries(draft)
    .filter(([path, text]) => path.startsWith(prefix) && text === "yes")
    .map(([path]) => path.slice(prefix.length));
}

function valueOf(path: string, text: string): unknown {
  if (FLAG.test(path)) return text === "yes" ? true : text === "no" ? false : { missing: "not known" };
  if (path.endsWith("veinPresent")) return text !== "no";
  return text;
}

/** An override half typed is still read; it counts only when its reason and both names are there. */
function wholeOverride(entry: Tree): unknown {
  const { names = {}, reason = "", ...rest } = entry;
  const named = names as Tree;
  return { ...rest, reason, names: [named["0"] ?? "", named["1"] ?? ""] };
}

/** A catheter's numbered volumes are a list again. */
function listedVolumes(entry: Tree): unknown {
  const { lumenVolumesMl, ...rest } = entry;
  return lumenVolumesMl ? { ...rest, lumenVolumesMl: Object.values(lumenVolumesMl) } : rest;
}

type Tree = Record<string, unknown>;

function setAt(root: Tree, keys: readonly string[], value: unknown): void {
  let node = root;
  for (const key of keys.slice(0, -1)) node = (node[key] ??= {}) as Tree;
  node[keys.at(-1) as string] = value;
}

/** Turns numbered readings into lists, drops empty ones, and spreads a vein's checks over its readings. */
function tidyArm(root: Tree, draft: Draft, side: string, keysOf: Map<string, readonly string[]>): void {
  const arm = (root["arms"] as Tree)[side] as Tree | undefined;
  if (arm?.["pastLines"]) {
    const lines = listed(arm["pastLines"], `arms.${side}.pastLines`, keysOf, (line) => line["year"] !== undefined);
    arm["pastLines"] = lines.map((line) => ({ vein: "basilic", ...line }));
  }
  if (!arm?.["surveys"]) return;
  const place = `arms.${side}.surveys`;
  const measured = (survey: Tree) =>
    Object.values((survey["stations"] ?? {}) as Tree).some((one) => (one as Tree)["atCm"] !== undefined);
  const surveys = listed(arm["surveys"], place, keysOf, measured);
  const typed = keysOf.get(place) ?? [];
  arm["surveys"] = surveys.map((survey, index) => {
    const checks = Object.fromEntries(
      VEIN_CHECKS.flatMap((check) => {
        const text = draft[`${place}.${typed[index]}.checks.${check}`] ?? "";
        return text === "" ? [] : [[check, check === "artery" ? text : valueOf(check, text)]];
      }),
    );
    const stations = listed(
      survey["stations"],
      `${place}.${index}.stations`,
      keysOf,
      (one) => one["atCm"] !== undefined,
    );
    return { vein: survey["vein"] ?? "basilic", stations: stations.map((station) => ({ ...checks, ...station })) };
  });
}

/** The entries of a numbered tree that count, in order; where each was typed is kept beside the list. */
function listed(
  tree: unknown,
  place: string,
  keysOf: Map<string, readonly string[]>,
  counts: (entry: Tree) => boolean,
): Tree[] {
  const kept = Object.entries((tree ?? {}) as Record<string, Tree>)
    .sort(([a], [b]) => Number(a) - Number(b))
    .filter(([, entry]) => counts(entry));
  keysOf.set(
    place,
    kept.map(([key]) => key),
  );
  return kept.map(([, entry]) => entry);
}

/** Where a path of the case was typed: lists close up over empty rows, so their numbers are not those of the fields. */
function typedPath(path: string, keysOf: ReadonlyMap<string, readonly string[]>): string {
  const typed: string[] = [];
  const inCase: string[] = [];
  for (const step of path.split(".")) {
    typed.push(keysOf.get(inCase.join("."))?.[Number(step)] ?? step);
    inCase.push(step);
  }
  return typed.join(".").replace(/^patient\.weight(Kg|Lb)$/, "patient.weight");
}

/** The case a draft stands for, and for each path of it the field it was typed in. */
export interface CaseOfDraft {
  readonly json: unknown;
  readonly typedPath: (path: string) => string;
}

/** The draft that types a case: used to open a practice patient in the same fields a person fills. */
export function draftFromCase(planCase: PlanCase): Draft {
  const draft: Record<string, string> = {};
  const put = (path: string, value: unknown): void => {
    if (value === undefined || value === null) return;
    if (typeof value === "object" && "missing" in value) return;
    if (Array.isArray(value)) value.forEach((entry, index) => put(`${path}.${index}`, entry));
    else if (typeof value === "object")
      for (const [key, entry] of Object.entries(value)) put(path === "" ? key : `${path}.${key}`, entry);
    else if (typeof value === "boolean") draft[path] = value ? "yes" : "no";
    else draft[path] = typeof value === "number" ? value.toString() : (value as string);
  };
  const { arms, shelf, ...rest } = planCase;
  put("", rest);
  for (const [from, to, unit] of [
    ["patient.weightKg", "patient.weight", "kg"],
    ["patient.weightLb", "patient.weight", "lb"],
  ] as const) {
    const text = draft[from];
    if (text === undefined) continue;
    draft[to] = text;
    draft["patient.weightUnit"] = unit;
    delete draft[from];
  }
  for (const side of ["right", "left"] as const) {
    const arm = arms[side];
    if (!arm) continue;
    put(`arms.${side}.armLengthCm`, arm.armLengthCm);
    put(`arms.${side}.pastLines`, arm.pastLines);
    if (Array.isArray(arm.bars)) {
      draft[`arms.${side}.barsAsked`] = "yes";
      for (const bar of arm.bars) draft[`arms.${side}.bar.${bar}`] = "yes";
    }
    for (const [index, survey] of (arm.surveys ?? []).entries()) {
      const prefix = `arms.${side}.surveys.${index}`;
      draft[`${prefix}.vein`] = survey.vein;
      const first = survey.stations.find(({ veinPresent }) => veinPresent !== false);
      for (const check of VEIN_CHECKS) put(`${prefix}.checks.${check}`, first?.[check]);
      for (const [row, station] of survey.stations.entries()) {
        put(`${prefix}.stations.${row}`, {
          atCm: station.atCm,
          diameterMm: station.diameterMm,
          depthMm: station.depthMm,
          veinPresent: station.veinPresent,
          repeats: station.repeats === 1 ? undefined : station.repeats,
        });
      }
    }
  }
  put("shelf", shelf);
  return draft;
}
